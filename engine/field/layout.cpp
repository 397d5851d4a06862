#include "engine/field/layout.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "engine/field/cut_lines.h"
#include "engine/field/layout_faults.h"
#include "engine/field/ripped_area.h"
#include "engine/field/sweep.h"

namespace acre::engine {
namespace {

// Row by row as the sweep goes.
void drive(const Lines& lines, const Sweep& sweep, const LayoutRequest& request,
           const Turned& turned, Layout& layout) {
    layout.skip = sweep.skip;
    layout.cells = sweep.cells;
    layout.turns = sweep.runs.size() - 1;
    layout.lifts = lines.segments.size() - sweep.runs.size();
    layout.pulls.reserve(lines.segments.size());
    for (std::size_t i = 0; i < sweep.runs.size(); ++i) {
        const Run& run = sweep.runs[i];
        for (std::size_t k = 0; k <= run.last - run.first; ++k) {
            const Segment& segment = lines.segments[run.forward ? run.first + k : run.last - k];
            const double y = lines.first + segment.row * request.spacing;
            const Point left = turned.out({segment.begin, y});
            const Point right = turned.out({segment.end, y});
            layout.pulls.push_back({run.forward ? left : right, run.forward ? right : left,
                                    segment.row, static_cast<std::uint32_t>(run.cell),
                                    segment.slanting});
        }
    }
}

void measure(const LayoutRequest& request, Layout& layout) {
    double total = 0;
    double between_cells = 0;
    layout.shortest = layout.pulls[0].length();
    for (std::size_t i = 0; i < layout.pulls.size(); ++i) {
        const Pull& pull = layout.pulls[i];
        const double length = pull.length();
        total += length;
        layout.shortest = std::min(layout.shortest, length);
        layout.longest = std::max(layout.longest, length);
        if (i > 0) {
            const Pull& before = layout.pulls[i - 1];
            const double way = std::hypot(pull.from.x - before.to.x, pull.from.y - before.to.y);
            layout.between += way;
            between_cells += before.cell == pull.cell ? 0 : way;
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
        std::llround((request.passes_per_row - 1) * static_cast<double>(layout.turns + 1)));
    if (request.speed > 0) {
        layout.ripping_time = layout.travel / request.speed;
        layout.between_time = between_cells / request.speed;
        layout.turning_time = (layout.between - between_cells) / request.speed +
                              static_cast<double>(layout.turns) * request.turn_time;
    }
}

Layout driven(const Lines& lines, const LayoutRequest& request, const Turned& turned,
              double reach) {
    Layout layout;
    layout.rows = lines.rows;
    drive(lines, sweep(lines, request.spacing, request.turn_diameter, reach), request, turned,
          layout);
    measure(request, layout);
    return layout;
}

// Where a gap takes less time than a turn the shank is lifted over it; and whether it pays to leave
// the rows whole over every gap is tried.
Layout faster_drive(const Lines& lines, const LayoutRequest& request, const Turned& turned) {
    Layout split = driven(lines, request, turned, request.speed * request.turn_time);
    if (split.cells == 1)
        return split;
    Layout whole = driven(lines, request, turned, std::numeric_limits<double>::infinity());
    const auto lost = [&](const Layout& layout) {
        return request.speed > 0 ? layout.turning_time + layout.between_time : layout.between;
    };
    return lost(whole) < lost(split) ? whole : split;
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
    lang::Outcome<Lines> lines = cut_lines(worked, request, turned);
    if (!lines)
        return std::move(lines.said);
    return faster_drive(*lines, request, turned);
}

// The plane's own areas differ from the geodesic ones by parts in ten million; the share of the
// field is what counts.
void take_areas(const PlaneField& field, const std::vector<PlanePolygon>& worked,
                const LayoutRequest& request, Layout& layout) {
    const double scale = field.area / plane_area(field.polygons);
    const Turned turned(request.heading);
    const auto ripped = [&](const LayoutRequest& by) {
        const lang::Outcome<Lines> lines = cut_lines(worked, by, turned);
        return lines ? scale * ripped_area(worked, *lines, by.spacing, turned) : 0;
    };
    LayoutRequest through = request;
    through.row_ends = 0;
    const double ground = request.headland > 0 ? scale * plane_area(worked) : field.area;
    const double to_the_edge = std::min(ripped(through), ground);
    layout.ripped_area =
        request.row_ends > 0 ? std::min(ripped(request), to_the_edge) : to_the_edge;
    layout.unripped.headland = field.area - ground;
    layout.unripped.row_ends = to_the_edge - layout.ripped_area;
    layout.unripped.gaps = ground - to_the_edge;
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
    take_areas(field, worked, request, *layout);
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
            ranked.push_back({heading, layout->time(), layout->travel, layout->turns});
    }
    std::stable_sort(ranked.begin(), ranked.end(),
                     [](const HeadingTime& a, const HeadingTime& b) { return a.time < b.time; });
    return ranked;
}

} // namespace acre::engine
