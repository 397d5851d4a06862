#include "engine/faults/line_uses.h"
#include "engine/job/priced_job.h"

#include <algorithm>
#include <cmath>

namespace acre::engine {

using lang::NodeId;
using lang::none;
using lang::Op;

namespace {

template <class T> void add_once(std::vector<T>& list, T item) {
    if (std::find(list.begin(), list.end(), item) == list.end())
        list.push_back(item);
}

// Visits the lines and functions that a formula names, in the order written. The depth of one
// formula is bounded by lang::max_formula_depth.
template <class OnLine, class OnFunction> class Walk {
  public:
    Walk(const PricedJob& job, OnLine on_line, OnFunction on_function)
        : sheet_(job.sheet()),
          compiled_(job.compiled()),
          values_(job.values()),
          on_line_(on_line),
          on_function_(on_function) {}

    void formula(NodeId id) {
        const lang::Node& node = sheet_.nodes[id];
        switch (node.op) {
        case Op::Line:
            on_line_(node.index);
            return;
        case Op::And:
        case Op::Or: {
            formula(node.a);
            const double left = value(node.a);
            if (node.op == Op::Or ? left == 0 : left != 0 && !std::isnan(left))
                formula(node.b);
            return;
        }
        case Op::When: {
            formula(node.a);
            if (const double condition = value(node.a); !std::isnan(condition))
                formula(condition != 0 ? node.b : node.c);
            return;
        }
        case Op::Define:
            on_function_(node.index);
            break;
        default:
            break;
        }
        lang::for_each_child(sheet_, node, [&](lang::NodeId child) { formula(child); });
    }

  private:
    double value(NodeId id) const {
        const Slot slot = compiled_.origins.slot_of_node[id];
        return slot == no_slot ? NAN : values_.slot[slot];
    }

    const lang::Sheet& sheet_;
    const Compiled& compiled_;
    const Values& values_;
    OnLine on_line_;
    OnFunction on_function_;
};

// Functions have no branches of ours to follow: all they may call are named.
void add_functions(const lang::Sheet& sheet, std::uint32_t first,
                   std::vector<std::uint32_t>& functions) {
    std::vector<std::uint32_t> open{first};
    std::vector<NodeId> nodes;
    while (!open.empty()) {
        const std::uint32_t index = open.back();
        open.pop_back();
        if (std::find(functions.begin(), functions.end(), index) != functions.end())
            continue;
        functions.push_back(index);
        const lang::Function& function = sheet.functions[index];
        if (function.value != none)
            nodes.push_back(function.value);
        for (const lang::Local& local : function.locals)
            nodes.push_back(local.value);
        while (!nodes.empty()) {
            const lang::Node& node = sheet.nodes[nodes.back()];
            nodes.pop_back();
            if (node.op == Op::Define)
                open.push_back(node.index);
            lang::for_each_child(sheet, node, [&](lang::NodeId child) { nodes.push_back(child); });
        }
    }
}

} // namespace

Uses uses_of(const PricedJob& job, NodeId formula) {
    const lang::Sheet& sheet = job.sheet();
    Uses uses;
    if (formula == none)
        return uses;
    const auto on_line = [&](lang::LineId line) { add_once(uses.lines, line); };
    const auto on_function = [&](std::uint32_t function) {
        add_functions(sheet, function, uses.functions);
    };
    Walk(job, on_line, on_function).formula(formula);
    return uses;
}

std::vector<char> asked_lines(const PricedJob& job, std::span<const lang::LineId> lines,
                              std::span<const NodeId> formulas) {
    const lang::Sheet& sheet = job.sheet();
    std::vector<char> asked(sheet.lines.size(), 0);
    std::vector<lang::LineId> open;
    const auto on_line = [&](lang::LineId line) {
        if (asked[line] != 0)
            return;
        asked[line] = 1;
        open.push_back(line);
    };
    Walk walk(job, on_line, [](std::uint32_t) {});
    std::for_each(lines.begin(), lines.end(), on_line);
    for (const NodeId formula : formulas)
        walk.formula(formula);
    while (!open.empty()) {
        const lang::Line& line = sheet.lines[open.back()];
        open.pop_back();
        if (line.value != none)
            walk.formula(line.value);
        if (line.given == none)
            continue;
        const lang::Given& given = sheet.givens[line.given];
        for (const NodeId bound : {given.within_low, given.within_high})
            if (bound != none)
                walk.formula(bound);
    }
    return asked;
}

} // namespace acre::engine
