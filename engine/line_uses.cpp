#include "engine/line_uses.h"

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

// The depth of one formula is bounded by lang::max_formula_depth.
struct Walk {
    const lang::Sheet& sheet;
    const Compiled& compiled;
    const Values& values;
    Uses& uses;

    double value(NodeId id) const {
        const Slot slot = compiled.origins.slot_of_node[id];
        return slot == no_slot ? NAN : values.slot[slot];
    }

    void formula(NodeId id) {
        const lang::Node& node = sheet.nodes[id];
        switch (node.op) {
        case Op::Line:
            add_once(uses.lines, node.index);
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
            functions(node.index);
            break;
        default:
            break;
        }
        for (const NodeId child : {node.a, node.b, node.c}) {
            if (child != none)
                formula(child);
        }
        for (std::uint32_t i = 0; i < node.arg_count; ++i)
            formula(sheet.args[node.first_arg + i]);
    }

    // Functions have no branches of ours to follow: all they may call are named.
    void functions(std::uint32_t first) {
        std::vector<std::uint32_t> open{first};
        std::vector<NodeId> nodes;
        while (!open.empty()) {
            const std::uint32_t index = open.back();
            open.pop_back();
            if (std::find(uses.functions.begin(), uses.functions.end(), index) != uses.functions.end())
                continue;
            uses.functions.push_back(index);
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
                for (const NodeId child : {node.a, node.b, node.c}) {
                    if (child != none)
                        nodes.push_back(child);
                }
                for (std::uint32_t i = 0; i < node.arg_count; ++i)
                    nodes.push_back(sheet.args[node.first_arg + i]);
            }
        }
    }
};

} // namespace

Uses uses_of(const lang::Sheet& sheet, const Compiled& compiled, const Values& values, NodeId formula) {
    Uses uses;
    if (formula != none)
        Walk{sheet, compiled, values, uses}.formula(formula);
    return uses;
}

} // namespace acre::engine
