#include "lang/check/resolve/infer.h"

#include <cmath>
#include <optional>
#include <vector>

namespace acre::lang::resolving {
namespace {

Type poison() {
    return {Type::Kind::Poison, 0, {}};
}
Type truth() {
    return {Type::Kind::Truth, 0, {}};
}
Type number(const std::optional<Unit>& unit) {
    return unit ? Type{Type::Kind::Number, 0, *unit} : poison();
}

// A whole number as it is written, with its sign.
std::optional<int> written_power(const Sheet& sheet, NodeId id) {
    const Node& node = sheet.nodes[id];
    if (node.op == Op::Negate) {
        const std::optional<int> power = written_power(sheet, node.a);
        return power ? std::optional<int>(-*power) : std::nullopt;
    }
    if (node.op != Op::Number || !node.type.unit.is_plain() || std::abs(node.number) > 99 ||
        node.number != std::floor(node.number))
        return std::nullopt;
    return static_cast<int>(node.number);
}

class Typer {
  public:
    explicit Typer(const Sheet& sheet) : sheet_(sheet) {}

    Type of(NodeId id) const {
        const Node& node = sheet_.nodes[id];
        switch (node.op) {
        case Op::Number:
        case Op::Choice:
            return node.type;
        case Op::Line:
            return sheet_.lines[node.index].type;
        case Op::Table:
            return sheet_.tables[node.index].result;
        case Op::Define:
            return sheet_.functions[node.index].type;
        case Op::Negate:
        case Op::Abs:
        case Op::Ceil:
        case Op::Floor:
        case Op::Round:
            return of(node.a);
        case Op::Add:
        case Op::Subtract:
            return alike(of(node.a), of(node.b));
        case Op::When:
            return alike(of(node.b), of(node.c));
        case Op::Min:
        case Op::Max:
        case Op::Sum:
        case Op::Most:
        case Op::Least:
            return alike_args(node);
        case Op::Multiply:
        case Op::Divide:
            return product(node, of(node.a), of(node.b));
        case Op::Power:
            return power(node, of(node.a));
        case Op::Sqrt: {
            const Type a = of(node.a);
            return a.kind == Type::Kind::Number ? number(square_root(a.unit)) : poison();
        }
        case Op::Exp:
        case Op::Log:
        case Op::Sin:
        case Op::Cos:
        case Op::Tan:
            return {};
        case Op::Less:
        case Op::LessEqual:
        case Op::Greater:
        case Op::GreaterEqual:
        case Op::Equal:
        case Op::NotEqual:
        case Op::And:
        case Op::Or:
        case Op::Not:
            return truth();
        case Op::Atan: // an angle of a kind that only the unit check needs to know
        case Op::Parameter:
        case Op::Local:
        case Op::Convert:
        case Op::Missing:
            break;
        }
        return poison();
    }

  private:
    // The first of two of one kind.
    static Type alike(const Type& a, const Type& b) {
        const bool same =
            a.kind == b.kind && (a.kind != Type::Kind::Number || a.unit.dim == b.unit.dim);
        return same ? a : poison();
    }

    Type alike_args(const Node& node) const {
        Type type = of(sheet_.args[node.first_arg]);
        for (std::uint32_t i = 1; i < node.arg_count; ++i)
            type = alike(type, of(sheet_.args[node.first_arg + i]));
        return type;
    }

    static Type product(const Node& node, const Type& a, const Type& b) {
        if (a.kind != Type::Kind::Number || b.kind != Type::Kind::Number)
            return poison();
        return number(node.op == Op::Multiply ? multiply(a.unit, b.unit) : divide(a.unit, b.unit));
    }

    Type power(const Node& node, const Type& a) const {
        if (a.kind != Type::Kind::Number)
            return poison();
        if (const std::optional<int> exponent = written_power(sheet_, node.b))
            return number(lang::power(a.unit, *exponent));
        return a.unit.is_plain() ? Type{} : poison();
    }

    const Sheet& sheet_;
};

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
    read_quantities(sheet, node.a, out);
    read_quantities(sheet, node.b, out);
    read_quantities(sheet, node.c, out);
    for (std::uint32_t i = 0; i < node.arg_count; ++i)
        read_quantities(sheet, sheet.args[node.first_arg + i], out);
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
        line.type = type_of(r_, line.value);
        if (line.type.kind != Type::Kind::Number)
            return;
        const Node& node = r_.sheet.nodes[line.value];
        line.unit_text = node.op == Op::Line ? r_.sheet.lines[node.index].unit_text
                                             : r_.sheet.units.text(line.type.unit);
    }

    Resolution& r_;
    std::vector<State> state_;
    std::vector<LineId> waiting_, reads_;
};

} // namespace

Type type_of(Resolution& r, NodeId node) {
    return node == none ? poison() : Typer(r.sheet).of(node);
}

void type_quantities(Resolution& r) {
    QuantityTyper typer(r);
    for (const Cost& cost : r.sheet.costs)
        typer.run(cost.quantity);
}

} // namespace acre::lang::resolving
