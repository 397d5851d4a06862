#include "engine/field/cut_lines.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>
#include <span>
#include <utility>

#include "engine/field/layout_faults.h"

namespace acre::engine {
namespace {

struct Edge {
    Point low, high; // low.y < high.y
};
struct Crossing {
    double x;
    bool slanting; // the edge makes less than 45 degrees with the pull
};
std::vector<Edge> turned_edges(const std::vector<PlanePolygon>& polygons, const Turned& turned) {
    std::vector<Edge> edges;
    const auto add = [&](const PlaneRing& ring) {
        for (std::size_t i = 0, n = ring.size(); i < n; ++i) {
            const Point a = turned.in(ring[i]);
            const Point b = turned.in(ring[i + 1 == n ? 0 : i + 1]);
            if (a.y != b.y)
                edges.push_back(a.y < b.y ? Edge{a, b} : Edge{b, a});
        }
    };
    for (const PlanePolygon& polygon : polygons) {
        add(polygon.outer);
        for (const PlaneRing& hole : polygon.holes)
            add(hole);
    }
    return edges;
}

// Calls at(row, y) for every line that cuts the edge. An edge owns its low end and not its high
// end, so that a line through a corner counts it once or twice, never wrongly.
template <class At>
void visit_rows(const Edge& edge, const Lines& lines, std::size_t rows, double spacing, At&& at) {
    const double from = std::max(0.0, std::ceil((edge.low.y - lines.first) / spacing) - 1);
    for (double k = from; k < static_cast<double>(rows); ++k) {
        const double y = lines.first + k * spacing;
        if (y < edge.low.y)
            continue;
        if (y >= edge.high.y)
            break;
        at(static_cast<std::size_t>(k), y);
    }
}

// Where lines cut edges: those of row i are begin_of[i] .. begin_of[i + 1].
struct Cuts {
    std::vector<Crossing> crossings;
    std::vector<std::size_t> begin_of;
};

// Empty: too many. Counted before they are kept: thousands of long edges may cut thousands of rows
// each, and two cuts are a pull.
std::optional<Cuts> cuts_of(const std::vector<Edge>& edges, const Lines& lines, std::size_t rows,
                            double spacing) {
    Cuts cuts;
    cuts.begin_of.assign(rows + 1, 0);
    std::size_t all = 0;
    for (const Edge& edge : edges) {
        visit_rows(edge, lines, rows, spacing,
                   [&](std::size_t row, double) { ++cuts.begin_of[row + 1], ++all; });
        if (all > 4 * max_pulls)
            return std::nullopt;
    }
    std::partial_sum(cuts.begin_of.begin(), cuts.begin_of.end(), cuts.begin_of.begin());
    cuts.crossings.resize(all);
    std::vector<std::size_t> place(cuts.begin_of.begin(), cuts.begin_of.end() - 1);
    for (const Edge& edge : edges) {
        const double slope = (edge.high.x - edge.low.x) / (edge.high.y - edge.low.y);
        const bool slanting = std::abs(slope) > 1;
        visit_rows(edge, lines, rows, spacing, [&](std::size_t row, double y) {
            cuts.crossings[place[row]++] = {edge.low.x + (y - edge.low.y) * slope, slanting};
        });
    }
    return cuts;
}

// Between the first and the second cut a line is inside, and so on. False: too many pulls.
bool take_segments(Cuts cuts, double row_ends, Lines& lines) {
    constexpr double shortest_pull = 0.01; // m
    for (std::size_t row = 0; row + 1 < cuts.begin_of.size(); ++row) {
        const std::span<Crossing> at(cuts.crossings.data() + cuts.begin_of[row],
                                     cuts.begin_of[row + 1] - cuts.begin_of[row]);
        std::sort(at.begin(), at.end(),
                  [](const Crossing& a, const Crossing& b) { return a.x < b.x; });
        bool any = false;
        for (std::size_t i = 0; i + 1 < at.size(); i += 2) {
            const double begin = at[i].x + row_ends;
            const double end = at[i + 1].x - row_ends;
            if (end - begin < shortest_pull)
                continue;
            lines.segments.push_back({static_cast<std::uint32_t>(row), begin, end,
                                      at[i].slanting || at[i + 1].slanting});
            if (lines.segments.size() > max_pulls)
                return false;
            any = true;
        }
        lines.rows += any ? 1 : 0;
    }
    return true;
}

} // namespace

lang::Outcome<Lines> cut_lines(const std::vector<PlanePolygon>& polygons,
                               const LayoutRequest& request, const Turned& turned) {
    const std::vector<Edge> edges = turned_edges(polygons, turned);
    if (edges.empty())
        return nothing_left(request);
    double low = edges[0].low.y;
    double high = edges[0].high.y;
    for (const Edge& edge : edges) {
        low = std::min(low, edge.low.y);
        high = std::max(high, edge.high.y);
    }
    Lines lines;
    lines.first = low + request.first_offset.value_or(request.spacing / 2);
    const double count = std::ceil((high - lines.first) / request.spacing);
    if (!(count >= 1))
        return no_pull_fits(request);
    if (count > static_cast<double>(max_pulls))
        return too_many_pulls(request);
    std::optional<Cuts> cuts =
        cuts_of(edges, lines, static_cast<std::size_t>(count), request.spacing);
    if (!cuts || !take_segments(std::move(*cuts), request.row_ends, lines))
        return too_many_pulls(request);
    if (lines.segments.empty())
        return no_pull_fits(request);
    return lines;
}

} // namespace acre::engine
