#include "engine/readers/lanes/graph.h"

#include <bit>
#include <unordered_map>

#include "engine/plan/operands.h"

namespace acre::engine::lanes {
namespace {

class Reducer {
  public:
    Reducer(const Plan& plan, std::span<const std::uint32_t> varied, std::span<const double> values,
            std::span<const char> settled)
        : plan_(plan),
          values_(values),
          varies_(plan.size(), 0),
          same_as_(plan.size()),
          which_input_(plan.inputs.size(), no_slot) {
        for (std::uint32_t k = 0; k < varied.size(); ++k)
            if (which_input_[varied[k]] == no_slot)
                which_input_[varied[k]] = k;
        for (Slot i = 0; i < plan.size(); ++i) {
            same_as_[i] = i;
            if (settled.empty() || settled[i] == 0)
                sweep(i);
        }
    }

    Graph reduce(std::span<const Slot> wanted) {
        const std::vector<char> asked = ask(wanted);
        node_of_.assign(plan_.size(), no_slot);
        for (Slot i = 0; i < plan_.size(); ++i)
            if (asked[i])
                add(i);
        for (const Slot slot : wanted) {
            const Value v = value_of(slot);
            graph_.wanted.push_back(v);
            if (!v.invariant)
                graph_.nodes[v.index].wanted = true;
        }
        mark_canonical();
        return std::move(graph_);
    }

  private:
    // First pass, forward: which slots vary, and which are another slot under another name once
    // invariants are known.
    bool is_invariant(Slot slot, double value) const {
        return !varies_[slot] && values_[slot] == value;
    }
    bool is_poison(Slot slot) const { return values_[slot] != values_[slot]; }
    bool is_truth(Slot slot) const { return engine::is_truth(plan_.operations[slot].code); }

    void sweep(Slot i) {
        const Operation& op = plan_.operations[i];
        const auto alias = [&](Slot to) {
            same_as_[i] = same_as_[to];
            varies_[i] = varies_[to];
        };
        switch (op.code) {
        case OpCode::Input:
            varies_[i] = which_input_[op.a] != no_slot;
            return;
        case OpCode::Select:
            if (!varies_[op.a])
                return is_poison(op.a) ? void() : alias(values_[op.a] != 0 ? op.b : op.c);
            break;
        case OpCode::Guard:
            if (!varies_[op.a])
                return is_invariant(op.a, 0) || is_poison(op.a) ? void() : alias(op.b);
            break;
        case OpCode::And:
        case OpCode::Or: {
            // One side leaves the other as it is, or decides alone.
            const bool neutral = op.code == OpCode::And;
            if (!varies_[op.a] && (is_poison(op.a) || (values_[op.a] != 0) != neutral))
                return;
            if (!varies_[op.a] && is_truth(op.b))
                return alias(op.b);
            if (!varies_[op.b] && !is_poison(op.b) && (values_[op.b] != 0) == neutral &&
                is_truth(op.a))
                return alias(op.a);
            break;
        }
        case OpCode::Multiply:
            if (is_invariant(op.a, 1))
                return alias(op.b);
            [[fallthrough]];
        case OpCode::Divide:
            if (is_invariant(op.b, 1))
                return alias(op.a);
            break;
        default:
            break;
        }
        for_each_operand(plan_, op, [&](Slot operand) { varies_[i] |= varies_[operand]; });
    }

    // Backward: what the wanted slots rest on, of all that varies.
    std::vector<char> ask(std::span<const Slot> wanted) const {
        std::vector<char> asked(plan_.size(), 0);
        const auto want = [&](Slot slot) {
            if (varies_[slot])
                asked[same_as_[slot]] = 1;
        };
        for (const Slot slot : wanted)
            want(slot);
        for (Slot i = static_cast<Slot>(plan_.size()); i-- > 0;)
            if (asked[i])
                for_each_operand(plan_, plan_.operations[i], want);
        return asked;
    }

    Value value_of(Slot slot) {
        if (varies_[slot])
            return {false, node_of_[same_as_[slot]]};
        const auto bits = std::bit_cast<std::uint64_t>(values_[slot]);
        const auto [at, added] =
            invariant_of_.try_emplace(bits, static_cast<std::uint32_t>(graph_.invariants.size()));
        if (added)
            graph_.invariants.push_back(values_[slot]);
        return {true, at->second};
    }

    void add(Slot i) {
        const Operation& op = plan_.operations[i];
        Node node{.code = op.code};
        if (op.code == OpCode::Input)
            node.extra = which_input_[op.a];
        else if (op.code == OpCode::Native) {
            node.extra = static_cast<std::uint32_t>(graph_.calls.size());
            std::vector<Value> args;
            for (const Slot arg : plan_.calls[op.a].args)
                args.push_back(value_of(arg));
            graph_.functions.push_back(plan_.calls[op.a].function);
            graph_.calls.push_back(std::move(args));
        } else {
            if (op.code == OpCode::Table)
                node.extra = op.a;
            for_each_operand(plan_, op,
                             [&](Slot operand) { node.in[node.in_count++] = value_of(operand); });
        }
        for_each_input(node, [&](Value v) { ++graph_.nodes[v.index].uses; });
        node_of_[i] = static_cast<std::uint32_t>(graph_.nodes.size());
        graph_.nodes.push_back(node);
    }

    // Calls `visit` with every operand that is a node.
    template <class Visit> void for_each_input(const Node& node, Visit visit) {
        if (node.code == OpCode::Native) {
            for (const Value v : graph_.calls[node.extra])
                if (!v.invariant)
                    visit(v);
            return;
        }
        for (std::uint32_t k = 0; k < node.in_count; ++k)
            if (!node.in[k].invariant)
                visit(node.in[k]);
    }

    void mark_canonical() {
        for (std::size_t i = graph_.nodes.size(); i-- > 0;) {
            Node& node = graph_.nodes[i];
            node.canonical |= node.wanted;
            const auto need = [&](Value v) {
                if (!v.invariant)
                    graph_.nodes[v.index].canonical = true;
            };
            const std::string_view reads = traits_of(node.code).reads;
            if (reads.empty())
                for_each_input(node, need);
            for (std::size_t k = 0; k < reads.size(); ++k)
                if (reads[k] == 'n' || (reads[k] == 'p' && node.canonical))
                    need(node.in[k]);
        }
    }

    const Plan& plan_;
    std::span<const double> values_;
    std::vector<char> varies_;
    std::vector<Slot> same_as_;
    std::vector<std::uint32_t> which_input_;
    std::vector<std::uint32_t> node_of_;
    std::unordered_map<std::uint64_t, std::uint32_t> invariant_of_;
    Graph graph_;
};

} // namespace

Graph reduce(const Plan& plan, std::span<const std::uint32_t> varied, std::span<const Slot> wanted,
             std::span<const double> values, std::span<const char> settled) {
    return Reducer(plan, varied, values, settled).reduce(wanted);
}

} // namespace acre::engine::lanes
