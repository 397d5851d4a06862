// The units of lines that declare none: the quantities of costs.
#include <vector>

#include "lang/check/resolve/resolution.h"
#include "lang/check/type_of.h"
#include "lang/units/named_unit.h"

namespace acre::lang::resolving {
namespace {

// The quantities a formula reads, directly.
void read_quantities(const Sheet& sheet, NodeId id, std::vector<LineId>& out) {
    if (id == none)
        return;
    const Node& node = sheet.nodes[id];
    if (node.op == Op::Line) {
        if (sheet.lines[node.index].role == Role::CostQuantity)
            out.push_back(node.index);
        return;
    }
    for_each_child(sheet, node, [&](NodeId child) { read_quantities(sheet, child, out); });
}

// Quantities may read each other, in any order and in chains of any length: those that are read are
// typed first. One that rests on itself stays poison, and the check for loops tells it.
class QuantityTyper {
  public:
    explicit QuantityTyper(Resolution& r) : r_(r), state_(r.sheet.lines.size(), State::New) {}

    void run(LineId first) {
        waiting_.push_back(first);
        while (!waiting_.empty()) {
            const LineId line = waiting_.back();
            if (state_[line] != State::New) {
                if (state_[line] == State::Open)
                    settle(r_.sheet.lines[line]);
                state_[line] = State::Done;
                waiting_.pop_back();
                continue;
            }
            state_[line] = State::Open;
            reads_.clear();
            read_quantities(r_.sheet, r_.sheet.lines[line].value, reads_);
            for (const LineId read : reads_)
                if (state_[read] == State::New)
                    waiting_.push_back(read);
        }
    }

  private:
    enum class State : std::uint8_t { New, Open, Done };

    void settle(Line& line) {
        line.type = type_of(r_.sheet, line.value);
        if (line.type.kind != Type::Kind::Number)
            return;
        const Node& node = r_.sheet.nodes[line.value];
        if (node.op == Op::Line)
            line.unit_text = r_.sheet.lines[node.index].unit_text;
        else {
            NamedUnit named = named_unit(r_.sheet.units, line.type.unit);
            line.type.unit = named.unit;
            line.unit_text = std::move(named.text);
        }
    }

    Resolution& r_;
    std::vector<State> state_;
    std::vector<LineId> waiting_, reads_;
};

} // namespace

void type_quantities(Resolution& r) {
    QuantityTyper typer(r);
    for (const Cost& cost : r.sheet.costs)
        typer.run(cost.quantity);
}

} // namespace acre::lang::resolving
