#include "engine/readers/lanes/instructions.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "engine/native/native.h"
#include "engine/plan/opcodes.h"
#include "engine/readers/lanes/graph.h"

namespace acre::engine::lanes {
namespace {

First first_of(OpCode code) {
    switch (code) {
    case OpCode::Add:
        return First::Add;
    case OpCode::Subtract:
        return First::Subtract;
    case OpCode::Multiply:
        return First::Multiply;
    default:
        return First::Divide;
    }
}

// The step that applies `code` to a chain and one more value; `chain_left`: the chain stands on the
// left.
Then then_of(OpCode code, bool chain_left) {
    switch (code) {
    case OpCode::Add:
        return Then::Add;
    case OpCode::Subtract:
        return chain_left ? Then::Subtract : Then::SubtractFrom;
    case OpCode::Multiply:
        return Then::Multiply;
    case OpCode::Divide:
        return chain_left ? Then::Divide : Then::DivideInto;
    case OpCode::Max:
        return Then::AtLeast;
    case OpCode::Min:
        return Then::AtMost;
    default:
        return Then::Root;
    }
}

struct Chain {
    First first = First::Add;
    std::array<Then, 2> then{Then::Stop, Then::Stop};
    std::array<Value, 4> in{};
    std::uint32_t length = 0; // steps
};

// One instruction over values, before rows are given out.
struct Unplaced {
    std::uint16_t kernel = 0;
    std::array<Value, 4> in{};
    std::uint32_t in_count = 0, extra = 0;
    std::uint32_t node = 0; // whose value it makes
};

class Builder {
  public:
    Builder(const Plan& plan, Graph graph, std::size_t chain_steps)
        : plan_(plan),
          graph_(std::move(graph)),
          chain_steps_(chain_steps),
          chain_(graph_.nodes.size()),
          inside_(graph_.nodes.size(), 0) {}

    Instructions build(std::uint32_t varied_count) {
        for (std::uint32_t i = 0; i < graph_.nodes.size(); ++i)
            fuse(i);
        for (std::uint32_t i = 0; i < graph_.nodes.size(); ++i)
            if (!inside_[i] && graph_.nodes[i].code != OpCode::Input)
                choose_kernel(i);
        made_.varied = varied_count;
        made_.wanted = static_cast<std::uint32_t>(graph_.wanted.size());
        made_.invariants = graph_.invariants;
        assign_rows();
        return std::move(made_);
    }

  private:
    Node& node(Value v) { return graph_.nodes[v.index]; }
    bool read_once(Value v) { return !v.invariant && node(v).uses == 1 && !node(v).wanted; }

    void fuse(std::uint32_t i) {
        const Node& n = graph_.nodes[i];
        const auto length = [&](Value v) {
            // As a divisor, or before the greater of two, a chain may be canonical: that step sees
            // to it.
            return read_once(v) && chain_[v.index].length < chain_steps_ ? chain_[v.index].length
                                                                         : 0;
        };
        if (kind_of(n.code) == OpKind::Arithmetic) {
            const std::uint32_t left = length(n.in[0]), right = length(n.in[1]);
            if (left == 0 && right == 0)
                chain_[i] = {first_of(n.code), {Then::Stop, Then::Stop}, {n.in[0], n.in[1]}, 1};
            else
                lengthen(i, left >= right);
        } else if (n.code == OpCode::Sqrt && length(n.in[0]) > 0) {
            lengthen(i, true);
        } else if (n.code == OpCode::Max || n.code == OpCode::Min) {
            if (length(n.in[0]) > 0)
                lengthen(i, true);
            else if (length(n.in[1]) > 0 && n.in[0].invariant &&
                     std::fabs(graph_.invariants[n.in[0].index]) > 0)
                lengthen(i, false); // of two equal numbers that are not zero it does not matter
                                    // which is taken
        } else if (n.code == OpCode::Select && read_once(n.in[0]) &&
                   kind_of(node(n.in[0]).code) == OpKind::Comparison) {
            inside_[n.in[0].index] = 1;
        }
    }

    // Node i as one more step of the chain on its left or right.
    void lengthen(std::uint32_t i, bool chain_left) {
        const Node& n = graph_.nodes[i];
        const Value absorbed = n.in[chain_left ? 0 : 1];
        Chain longer = chain_[absorbed.index];
        longer.then[longer.length - 1] = then_of(n.code, chain_left);
        longer.in[++longer.length] = n.in_count == 1 ? longer.in[0] : n.in[chain_left ? 1 : 0];
        chain_[i] = longer;
        inside_[absorbed.index] = 1;
    }

    void choose_kernel(std::uint32_t i) {
        const Node& n = graph_.nodes[i];
        Unplaced d{
            .in = {n.in[0], n.in[1], n.in[2]}, .in_count = n.in_count, .extra = n.extra, .node = i};
        if (const Chain& c = chain_[i]; c.length > 0) {
            d.kernel = chain_number(c.first, c.then[0], c.then[1], n.canonical);
            d.in = c.in;
            d.in_count = c.length + 1;
        } else if (n.code == OpCode::Select && !n.in[0].invariant && inside_[n.in[0].index]) {
            const Node& condition = node(n.in[0]);
            d.kernel = static_cast<std::uint16_t>(select_of(condition.code));
            d.in = {condition.in[0], condition.in[1], n.in[1], n.in[2]};
            d.in_count = 4;
        } else if (n.code == OpCode::Table) {
            d.kernel = static_cast<std::uint16_t>(
                plan_.tables[n.extra].staircase ? Kernel::Staircase : Kernel::Lines);
        } else {
            d.kernel = static_cast<std::uint16_t>(kernel_of(n.code));
            if (n.code == OpCode::Power && n.in[1].invariant &&
                std::fabs(graph_.invariants[n.in[1].index]) > 0)
                d.kernel = static_cast<std::uint16_t>(Kernel::PowerFixed);
        }
        unplaced_.push_back(d);
    }

    template <class Visit> void for_each_input(const Unplaced& d, Visit visit) {
        if (d.kernel == static_cast<std::uint16_t>(Kernel::Native)) {
            for (const Value v : graph_.calls[d.extra])
                visit(v);
            return;
        }
        for (std::uint32_t k = 0; k < d.in_count; ++k)
            visit(d.in[k]);
    }

    static constexpr std::uint32_t nowhere = 0xFFFFFFFF;

    // By node: the first output that it is; nowhere for what nobody wants.
    std::vector<std::uint32_t> outputs() {
        std::vector<std::uint32_t> output_of(graph_.nodes.size(), nowhere);
        for (std::uint32_t k = 0; k < graph_.wanted.size(); ++k)
            if (const Value v = graph_.wanted[k];
                !v.invariant && node(v).code != OpCode::Input && output_of[v.index] == nowhere)
                output_of[v.index] = k;
        return output_of;
    }

    // By node: the instruction that reads it last.
    std::vector<std::uint32_t> last_reads() {
        std::vector<std::uint32_t> last_read(graph_.nodes.size(), 0);
        for (std::uint32_t at = 0; at < unplaced_.size(); ++at)
            for_each_input(unplaced_[at], [&](Value v) {
                if (!v.invariant)
                    last_read[v.index] = at;
            });
        return last_read;
    }

    // Rows are few so that they stay in the nearest cache: a row is free again after its last
    // reader.
    void assign_rows() {
        std::vector<std::uint32_t> last_read = last_reads();
        const std::vector<std::uint32_t> output_of = outputs();
        std::vector<std::uint32_t> row_of(graph_.nodes.size(), nowhere), free_rows;
        std::uint32_t rows = 0;
        for (std::uint32_t at = 0; at < unplaced_.size(); ++at) {
            for_each_input(unplaced_[at], [&](Value v) {
                if (v.invariant || last_read[v.index] != at || row_of[v.index] == nowhere)
                    return;
                free_rows.push_back(row_of[v.index]);
                row_of[v.index] |= released;
                last_read[v.index] = nowhere; // read twice by one instruction, freed once
            });
            const std::uint32_t made = unplaced_[at].node;
            if (output_of[made] != nowhere)
                continue;
            if (free_rows.empty())
                free_rows.push_back(rows++);
            row_of[made] = free_rows.back();
            free_rows.pop_back();
        }
        made_.rows = rows;

        const auto row = [&](Value v) -> RowIndex {
            if (v.invariant)
                return made_.first_invariant() + v.index;
            if (node(v).code == OpCode::Input)
                return made_.first_varied() + node(v).extra;
            if (output_of[v.index] != nowhere)
                return made_.first_wanted() + output_of[v.index];
            return row_of[v.index] & ~released;
        };
        for (const Unplaced& d : unplaced_) {
            Instruction instruction{
                .kernel = d.kernel, .out = row({false, d.node}), .extra = d.extra};
            if (d.kernel == static_cast<std::uint16_t>(Kernel::Native)) {
                instruction.extra = static_cast<std::uint32_t>(made_.calls.size());
                made_.calls.push_back(call_of(d.extra, row));
            } else {
                for (std::uint32_t k = 0; k < d.in.size();
                     ++k) // the rest repeat the first: an address that can be read
                    instruction.in[k] = row(d.in[k < d.in_count ? k : 0]);
            }
            made_.list.push_back(instruction);
        }
        for (std::uint32_t k = 0; k < graph_.wanted.size(); ++k) {
            const RowIndex from = row(graph_.wanted[k]);
            if (from != made_.first_wanted() + k)
                made_.list.push_back({static_cast<std::uint16_t>(Kernel::Copy),
                                      made_.first_wanted() + k,
                                      {from, from, from, from},
                                      0});
        }
    }

    template <class Row> Call call_of(std::uint32_t number, Row row) {
        const std::vector<Value>& args = graph_.calls[number];
        const auto lanes = native_functions()[graph_.functions[number]].lanes;
        Call call{.function = graph_.functions[number], .args = {}, .moving = {}};
        for (const Value v : args) {
            if (!v.invariant)
                call.moving.push_back(static_cast<std::uint32_t>(call.args.size()));
            call.args.push_back(row(v));
        }
        const auto next = static_cast<std::uint32_t>(searches_.size());
        if (const auto at = searches_.find({lanes, args}); at != searches_.end()) {
            call.remembered = at->second;
            call.leads = false;
        } else if (next < calls_remembered) {
            searches_.emplace(Search{lanes, args}, next);
            call.remembered = next;
        } else {
            call.remembered = calls_remembered;
        }
        made_.remembered.resize(
            std::max<std::size_t>(made_.remembered.size(), call.remembered + 1));
        std::size_t& moving = made_.remembered[call.remembered];
        moving = std::max(moving, call.moving.size());
        return call;
    }

    static constexpr std::uint32_t released = 0x80000000;

    // By what finds it and its arguments.
    using Search = std::pair<decltype(NativeFunction::lanes), std::vector<Value>>;
    std::map<Search, std::uint32_t> searches_;
    const Plan& plan_;
    Graph graph_;
    std::size_t chain_steps_;
    std::vector<Chain> chain_;
    std::vector<char> inside_; // done within the instruction that reads it
    std::vector<Unplaced> unplaced_;
    Instructions made_;
};

} // namespace

Instructions instructions_of(const Plan& plan, std::span<const std::uint32_t> varied,
                             std::span<const Slot> wanted, std::span<const double> values,
                             std::span<const char> settled, std::size_t chain_steps) {
    return Builder(plan, reduce(plan, varied, wanted, values, settled), chain_steps)
        .build(static_cast<std::uint32_t>(varied.size()));
}

} // namespace acre::engine::lanes
