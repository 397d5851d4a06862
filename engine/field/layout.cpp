#include "engine/field/layout.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <span>

#include "engine/field/layout_faults.h"

namespace acre::engine {
namespace {

// The field turned so that pulls run along x.
struct Turned {
    double cosine, sine;
    explicit Turned(double heading) {
        // Heading is clockwise from north; the direction of travel is (sin, cos) in east and north.
        const double angle = heading * std::numbers::pi / 180;
        cosine = std::sin(angle);
        sine = std::cos(angle);
    }
    Point in(Point p) const { return {p.x * cosine + p.y * sine, p.y * cosine - p.x * sine}; }
    Point out(Point p) const { return {p.x * cosine - p.y * sine, p.x * sine + p.y * cosine}; }
};

struct Edge {
    Point low, high; // low.y < high.y
};
struct Crossing {
    double x;
    bool slanting; // the edge makes less than 45 degrees with the pull
};
struct Segment {
    std::uint32_t row;
    double begin, end;
    bool slanting;
};

struct Lines {
    double first = 0;              // y of row 0
    std::vector<Segment> segments; // by row, then x
    std::size_t rows = 0;
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

lang::Outcome<Lines> cut(const std::vector<PlanePolygon>& polygons, const LayoutRequest& request,
                         const Turned& turned) {
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

// Rows in the order they are driven. A machine that cannot turn into the next row goes `skip` rows
// over and `skip - 1` back, land by land, until every row is done.
std::vector<std::uint32_t> row_order(const std::vector<std::uint32_t>& rows, std::uint32_t skip) {
    std::vector<std::uint32_t> order;
    order.reserve(rows.size());
    const std::size_t land = skip == 1 ? rows.size() : std::size_t{2} * skip;
    for (std::size_t begin = 0; begin < rows.size(); begin += land) {
        const std::size_t size = std::min(land, rows.size() - begin);
        const std::size_t half = skip == 1 ? size : (size + 1) / 2;
        for (std::size_t i = 0; i < half; ++i) {
            order.push_back(rows[begin + i]);
            if (skip != 1 && half + i < size)
                order.push_back(rows[begin + half + i]);
        }
    }
    return order;
}

void drive(const Lines& lines, const LayoutRequest& request, const Turned& turned, Layout& layout) {
    std::vector<std::uint32_t> rows;
    std::vector<std::size_t> first_of_row;
    for (std::size_t i = 0; i < lines.segments.size(); ++i)
        if (rows.empty() || rows.back() != lines.segments[i].row) {
            rows.push_back(lines.segments[i].row);
            first_of_row.push_back(i);
        }
    first_of_row.push_back(lines.segments.size());
    std::vector<std::uint32_t> ranks(rows.size());
    for (std::uint32_t i = 0; i < ranks.size(); ++i)
        ranks[i] = i;
    layout.skip = request.turn_diameter > request.spacing
                      ? static_cast<std::uint32_t>(
                            std::min(64.0, std::ceil(request.turn_diameter / request.spacing)))
                      : 1;
    layout.pulls.reserve(lines.segments.size());
    bool forward = true;
    for (const std::uint32_t rank : row_order(ranks, layout.skip)) {
        const std::size_t begin = first_of_row[rank];
        const std::size_t end = first_of_row[rank + 1];
        for (std::size_t k = 0; k < end - begin; ++k) {
            const Segment& segment = lines.segments[forward ? begin + k : end - 1 - k];
            const double y = lines.first + segment.row * request.spacing;
            const Point left = turned.out({segment.begin, y});
            const Point right = turned.out({segment.end, y});
            layout.pulls.push_back(
                {forward ? left : right, forward ? right : left, segment.row, segment.slanting});
        }
        forward = !forward;
    }
}

void measure(const LayoutRequest& request, Layout& layout) {
    double total = 0;
    layout.shortest = layout.pulls[0].length();
    for (std::size_t i = 0; i < layout.pulls.size(); ++i) {
        const Pull& pull = layout.pulls[i];
        const double length = pull.length();
        total += length;
        layout.shortest = std::min(layout.shortest, length);
        layout.longest = std::max(layout.longest, length);
        if (i > 0) {
            const Pull& before = layout.pulls[i - 1];
            layout.between += std::hypot(pull.from.x - before.to.x, pull.from.y - before.to.y);
            ++(before.row == pull.row ? layout.lifts : layout.turns);
        }
    }
    layout.mean = total / static_cast<double>(layout.pulls.size());
    for (Pull& pull : layout.pulls) {
        pull.point_row = pull.point_row && pull.length() < layout.mean / 2;
        layout.point_rows += pull.point_row ? 1 : 0;
    }
    layout.travel = total * request.passes_per_row;
    // Every further pass along a row begins with one more turn at its end.
    layout.turns += static_cast<std::size_t>(
        std::llround((request.passes_per_row - 1) * static_cast<double>(layout.rows)));
    if (request.speed > 0) {
        layout.ripping_time = layout.travel / request.speed;
        layout.turning_time =
            layout.between / request.speed + static_cast<double>(layout.turns) * request.turn_time;
    }
}

bool is_good(const LayoutRequest& request) {
    const auto finite_from = [](double x, double low) { return std::isfinite(x) && x >= low; };
    return std::isfinite(request.heading) && finite_from(request.spacing, 0.01) &&
           finite_from(request.headland, 0) && finite_from(request.row_ends, 0) &&
           finite_from(request.passes_per_row, 1) && finite_from(request.speed, 0) &&
           finite_from(request.turn_time, 0) && finite_from(request.turn_diameter, 0) &&
           finite_from(request.first_offset.value_or(0), 0);
}

lang::Outcome<Layout> lay_out_in(const std::vector<PlanePolygon>& worked,
                                 const LayoutRequest& request) {
    const Turned turned(request.heading);
    lang::Outcome<Lines> lines = cut(worked, request, turned);
    if (!lines)
        return std::move(lines.said);
    Layout layout;
    layout.rows = lines->rows;
    drive(*lines, request, turned, layout);
    measure(request, layout);
    return layout;
}

std::vector<double> headings_to_try(const PlaneField& field) {
    std::vector<double> headings(180);
    for (std::size_t i = 0; i < headings.size(); ++i)
        headings[i] = static_cast<double>(i);
    std::vector<std::pair<double, double>> edges; // length, heading
    for (const PlanePolygon& polygon : field.polygons)
        for (std::size_t i = 0, n = polygon.outer.size(); i < n; ++i) {
            const Point a = polygon.outer[i];
            const Point b = polygon.outer[i + 1 == n ? 0 : i + 1];
            const double heading =
                std::fmod(std::atan2(b.x - a.x, b.y - a.y) * 180 / std::numbers::pi + 360, 180);
            edges.emplace_back(std::hypot(b.x - a.x, b.y - a.y), heading);
        }
    const std::size_t most = std::min<std::size_t>(8, edges.size());
    std::partial_sort(edges.begin(), edges.begin() + static_cast<std::ptrdiff_t>(most), edges.end(),
                      std::greater<>());
    for (std::size_t i = 0; i < most; ++i)
        headings.push_back(edges[i].second);
    return headings;
}

} // namespace

double Pull::length() const {
    return std::hypot(to.x - from.x, to.y - from.y);
}

lang::Outcome<Layout> lay_out(const PlaneField& field, const LayoutRequest& request) {
    if (!is_good(request))
        return bad_request(request);
    std::vector<PlanePolygon> worked = inset(field.polygons, request.headland);
    if (worked.empty())
        return nothing_left(request);
    lang::Outcome<Layout> layout = lay_out_in(worked, request);
    if (!layout)
        return layout;
    // The plane's own area differs from the geodesic one by parts in ten million; the share of it
    // is what counts.
    layout->net_area = request.headland > 0
                           ? field.area * plane_area(worked) / plane_area(field.polygons)
                           : field.area;
    layout->worked = std::move(worked);
    return layout;
}

std::vector<HeadingTime> rank_headings(const PlaneField& field, const LayoutRequest& request) {
    std::vector<HeadingTime> ranked;
    if (!is_good(request) || request.speed <= 0)
        return ranked;
    const std::vector<PlanePolygon> worked = inset(field.polygons, request.headland);
    LayoutRequest turned = request;
    for (const double heading : headings_to_try(field)) {
        turned.heading = heading;
        if (const lang::Outcome<Layout> layout = lay_out_in(worked, turned))
            ranked.push_back({heading, layout->ripping_time + layout->turning_time, layout->travel,
                              layout->turns});
    }
    std::stable_sort(ranked.begin(), ranked.end(),
                     [](const HeadingTime& a, const HeadingTime& b) { return a.time < b.time; });
    return ranked;
}

} // namespace acre::engine
