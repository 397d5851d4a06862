#include "lang/check/order.h"

#include <algorithm>
#include <string>
#include <utility>

#include <fmt/format.h>

namespace acre::lang {
namespace {

constexpr std::size_t most_shown = 6; // steps of a loop that are drawn

// The graph together with the node that makes each edge.
struct Traced {
    Dependencies graph;
    std::vector<NodeId> nodes; // by edge
};

class Tracer {
  public:
    Tracer(const Sheet& sheet, Op op) : sheet_(sheet), op_(op) {}

    // The nodes of operation `op_` in the tree.
    void collect(NodeId id) {
        if (id == none)
            return;
        const Node& node = sheet_.nodes[id];
        if (node.op == op_) {
            out.graph.edges.push_back(node.index);
            out.nodes.push_back(id);
        }
        for_each_child(sheet_, node, [&](NodeId child) { collect(child); });
    }
    void close() { out.graph.first.push_back(static_cast<std::uint32_t>(out.graph.edges.size())); }

    Traced out;

  private:
    const Sheet& sheet_;
    Op op_;
};

Traced graph_of_lines(const Sheet& sheet) {
    Tracer tracer(sheet, Op::Line);
    tracer.out.graph.edges.reserve(2 * sheet.lines.size());
    tracer.out.nodes.reserve(2 * sheet.lines.size());
    for (const Line& line : sheet.lines) {
        tracer.collect(line.value);
        tracer.close();
    }
    return std::move(tracer.out);
}

Traced graph_of_functions(const Sheet& sheet) {
    Tracer tracer(sheet, Op::Define);
    for (const Function& function : sheet.functions) {
        tracer.collect(function.value);
        for (const Local& local : function.locals)
            tracer.collect(local.value);
        tracer.close();
    }
    return std::move(tracer.out);
}

bool has_edge(const Dependencies& graph, std::uint32_t from, std::uint32_t to) {
    return std::find(graph.edges.begin() + graph.first[from],
                     graph.edges.begin() + graph.first[from + 1],
                     to) != graph.edges.begin() + graph.first[from + 1];
}

NodeId edge_node(const Traced& traced, std::uint32_t from, std::uint32_t to) {
    for (std::uint32_t e = traced.graph.first[from]; e < traced.graph.first[from + 1]; ++e)
        if (traced.graph.edges[e] == to)
            return traced.nodes[e];
    return none;
}

// One diagnostic for the way round: a mark on each step.
template <class NameOf>
Diagnostic loop_message(const Sheet& sheet, const Traced& traced,
                        const std::vector<std::uint32_t>& loop, Code code, std::string title,
                        std::string_view verb, const NameOf& name_of) {
    Diagnostic d{code, std::move(title), {}, {}, {}, {}};
    for (std::size_t i = 0; i < std::min(loop.size(), most_shown); ++i) {
        const std::uint32_t from = loop[i];
        const std::uint32_t to = loop[(i + 1) % loop.size()];
        const Node& node = sheet.nodes[edge_node(traced, from, to)];
        Label label{node.op == Op::Define ? node.op_span : node.span,
                    fmt::format("`{}` {} `{}`", name_of(from), verb, name_of(to))};
        if (i == 0)
            d.primary = std::move(label);
        else
            d.others.push_back(std::move(label));
    }
    if (loop.size() > most_shown)
        d.notes.push_back(
            fmt::format("and so on, {} steps in all, back to `{}`", loop.size(), name_of(loop[0])));
    return d;
}

void report_line_loops(const Sheet& sheet, Diagnostics& diagnostics) {
    const Traced traced = graph_of_lines(sheet);
    for (const auto& group : strong_groups(traced.graph)) {
        if (group.size() == 1 && !has_edge(traced.graph, group[0], group[0]))
            continue;
        if (diagnostics.full()) { // counted only: finding the way round is what costs
            diagnostics.add({Code::G401, {}, {sheet.lines[group[0]].name_span, {}}, {}, {}, {}});
            continue;
        }
        std::vector<std::uint32_t> sorted =
            group; // in the order of the sheet, so that the message is the same every time
        std::sort(sorted.begin(), sorted.end());
        const std::vector<std::uint32_t> loop = shortest_loop(traced.graph, sorted);
        const auto name_of = [&](std::uint32_t id) -> const std::string& {
            return sheet.lines[id].name;
        };
        std::string title =
            loop.size() == 1 ? fmt::format("`{}` depends on itself", name_of(loop[0]))
                             : fmt::format("{} lines depend on each other in a loop", loop.size());
        Diagnostic d =
            loop_message(sheet, traced, loop, Code::G401, std::move(title), "uses", name_of);
        d.helps.push_back(
            {loop.size() == 1
                 ? "use another line here, or make this one a given with its own number"
                 : "make one of them a given with its own number",
             std::nullopt});
        diagnostics.add(std::move(d));
    }
}

void report_function_loops(const Sheet& sheet, Diagnostics& diagnostics) {
    const Traced traced = graph_of_functions(sheet);
    for (const auto& group : strong_groups(traced.graph)) {
        if (group.size() == 1 && !has_edge(traced.graph, group[0], group[0]))
            continue;
        if (diagnostics.full()) {
            diagnostics.add(
                {Code::G402, {}, {sheet.functions[group[0]].name_span, {}}, {}, {}, {}});
            continue;
        }
        std::vector<std::uint32_t> sorted = group;
        std::sort(sorted.begin(), sorted.end());
        const std::vector<std::uint32_t> loop = shortest_loop(traced.graph, sorted);
        const auto name_of = [&](std::uint32_t id) -> const std::string& {
            return sheet.functions[id].name;
        };
        std::string title =
            loop.size() == 1 ? fmt::format("`{}` calls itself", name_of(loop[0]))
                             : fmt::format("{} functions call each other in a loop", loop.size());
        Diagnostic d =
            loop_message(sheet, traced, loop, Code::G402, std::move(title), "calls", name_of);
        d.notes.push_back("a formula must come to an end, so a function cannot call itself");
        diagnostics.add(std::move(d));
    }
}

} // namespace

// Tarjan's algorithm with a stack of its own, so that a chain of a million lines is no danger (R.
// Tarjan, "Depth-first search and linear graph algorithms", SIAM J. Comput. 1(2), 1972; from
// memory).
std::vector<std::vector<std::uint32_t>> strong_groups(const Dependencies& graph) {
    constexpr std::uint32_t unseen = 0xFFFFFFFF;
    struct Frame {
        std::uint32_t node, next_edge;
    };
    const std::uint32_t n = graph.size();
    std::vector<std::uint32_t> order(n, unseen);
    std::vector<std::uint32_t> low(n, 0);
    std::vector<bool> open(n, false);
    std::vector<std::uint32_t> stack;
    std::vector<Frame> frames;
    std::vector<std::vector<std::uint32_t>> groups;
    std::uint32_t count = 0;
    const auto enter = [&](std::uint32_t node) {
        order[node] = low[node] = count++;
        open[node] = true;
        stack.push_back(node);
        frames.push_back({node, graph.first[node]});
    };
    for (std::uint32_t start = 0; start < n; ++start) {
        if (order[start] != unseen)
            continue;
        enter(start);
        while (!frames.empty()) {
            Frame& frame = frames.back();
            const std::uint32_t node = frame.node;
            if (frame.next_edge < graph.first[node + 1]) {
                const std::uint32_t to = graph.edges[frame.next_edge++];
                if (order[to] == unseen)
                    enter(to);
                else if (open[to])
                    low[node] = std::min(low[node], order[to]);
                continue;
            }
            frames.pop_back();
            if (!frames.empty())
                low[frames.back().node] = std::min(low[frames.back().node], low[node]);
            if (low[node] != order[node])
                continue;
            std::vector<std::uint32_t> group;
            do {
                group.push_back(stack.back());
                open[stack.back()] = false;
                stack.pop_back();
            } while (group.back() != node);
            groups.push_back(std::move(group));
        }
    }
    return groups;
}

std::vector<std::uint32_t> shortest_loop(const Dependencies& graph,
                                         const std::vector<std::uint32_t>& group) {
    const std::uint32_t start = group.front();
    std::vector<std::uint32_t> from(graph.size(), none);
    std::vector<bool> member(graph.size(), false);
    for (const std::uint32_t id : group)
        member[id] = true;
    std::vector<std::uint32_t> line{start}; // breadth first
    for (std::size_t i = 0; i < line.size(); ++i) {
        for (std::uint32_t e = graph.first[line[i]]; e < graph.first[line[i] + 1]; ++e) {
            const std::uint32_t to = graph.edges[e];
            if (to == start) {
                std::vector<std::uint32_t> loop;
                for (std::uint32_t at = line[i]; at != start; at = from[at])
                    loop.push_back(at);
                loop.push_back(start);
                std::reverse(loop.begin(), loop.end());
                return loop;
            }
            if (member[to] && from[to] == none) {
                from[to] = line[i];
                line.push_back(to);
            }
        }
    }
    return {start};
}

void report_loops(const Sheet& sheet, Diagnostics& diagnostics) {
    report_line_loops(sheet, diagnostics);
    report_function_loops(sheet, diagnostics);
}

} // namespace acre::lang
