#include "engine/field/drive_lines.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

#include "engine/field/cut_lines.h"
#include "engine/field/inset.h"
#include "engine/field/layout_faults.h"
#include "engine/field/sweep.h"
#include "engine/field/turn.h"

namespace acre::engine {
namespace {

double straight(Point a, Point b) {
    return std::hypot(b.x - a.x, b.y - a.y);
}
double angle_of(const Pull& pull) {
    return std::atan2(pull.to.y - pull.from.y, pull.to.x - pull.from.x);
}
Turn turn_from(const Pull& from, const Pull& to, double diameter) {
    return shortest_turn({from.to, angle_of(from)}, {to.from, angle_of(to)}, diameter);
}

// Row by row as the sweep goes.
void drive(const Lines& lines, const Sweep& sweep, const Turned& turned, Layout& layout) {
    layout.skip = sweep.skip;
    layout.cells = sweep.cells;
    layout.turns = sweep.runs.size() - 1;
    layout.lifts = lines.segments.size() - sweep.runs.size();
    layout.pulls.reserve(lines.segments.size());
    for (std::size_t i = 0; i < sweep.runs.size(); ++i) {
        const Run& run = sweep.runs[i];
        for (std::size_t k = 0; k <= run.last - run.first; ++k) {
            const Segment& segment = lines.segments[run.forward ? run.first + k : run.last - k];
            const double y = lines.tracks[segment.track].y;
            const Point left = turned.out({segment.begin, y});
            const Point right = turned.out({segment.end, y});
            layout.pulls.push_back({run.forward ? left : right, run.forward ? right : left,
                                    lines.tracks[segment.track].row, segment.block,
                                    static_cast<std::uint32_t>(run.cell), k > 0, segment.slanting});
        }
    }
}

// Means and point rows, of pulls that are in order.
void take_lengths(Layout& layout) {
    layout.shortest = layout.pulls[0].length();
    for (const Pull& pull : layout.pulls) {
        const double length = pull.length();
        layout.travel += length;
        layout.shortest = std::min(layout.shortest, length);
        layout.longest = std::max(layout.longest, length);
    }
    layout.mean = layout.travel / static_cast<double>(layout.pulls.size());
    for (Pull& pull : layout.pulls) {
        pull.point_row = pull.point_row && pull.length() < layout.mean / 2;
        layout.point_rows += pull.point_row ? 1 : 0;
    }
}

// The way from pull to pull, and what each block has of it.
void take_ways(const LayoutRequest& request, Layout& layout) {
    double between_cells = 0;
    const double slowness = request.speed > 0 ? 1 / request.speed : 0;
    for (std::size_t i = 0; i < layout.pulls.size(); ++i) {
        const Pull& pull = layout.pulls[i];
        BlockLayout& block = layout.blocks[pull.block];
        if (block.pulls == 0)
            block.first_pull = i;
        ++block.pulls;
        block.travel += pull.length();
        block.ripping_time += pull.length() * slowness;
        if (i == 0)
            continue;
        const Pull& before = layout.pulls[i - 1];
        double way = straight(before.to, pull.from);
        if (!pull.lifted && request.turn_diameter > 0) {
            const Turn turn = turn_from(before, pull, request.turn_diameter);
            way = turn.length();
            layout.loops += turn.is_loop() ? 1 : 0;
        }
        layout.between += way;
        between_cells += before.cell == pull.cell ? 0 : way;
        if (before.block != pull.block)
            continue;
        block.turns += pull.lifted ? 0 : 1;
        if (request.speed > 0)
            block.turning_time += way * slowness + (pull.lifted ? 0 : request.turn_time);
    }
    if (request.speed > 0) {
        layout.ripping_time = layout.travel * slowness;
        layout.between_time = between_cells * slowness;
        layout.turning_time = (layout.between - between_cells) * slowness +
                              static_cast<double>(layout.turns) * request.turn_time;
    }
}

Layout driven(const Lines& lines, const LayoutRequest& request, const Turned& turned,
              double reach) {
    Layout layout;
    layout.rows = lines.rows;
    drive(lines, sweep(lines, request.turn_diameter, reach), turned, layout);
    for (const Segment& segment : lines.segments)
        if (layout.blocks.size() <= segment.block)
            layout.blocks.resize(segment.block + std::size_t{1});
    take_lengths(layout);
    take_ways(request, layout);
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

} // namespace

double way_to(const Pull& from, const Pull& to, double turn_diameter) {
    return turn_diameter > 0 ? turn_from(from, to, turn_diameter).length()
                             : straight(from.to, to.from);
}

bool is_good(const LayoutRequest& request) {
    const auto finite_from = [](double x, double low) { return std::isfinite(x) && x >= low; };
    return std::isfinite(request.heading) && finite_from(request.spacing, 0.01) &&
           finite_from(request.headland, 0) && finite_from(request.row_ends, 0) &&
           finite_from(request.passes_per_row, 1) && finite_from(request.pass_spacing, 0) &&
           request.pass_spacing * (std::ceil(request.passes_per_row) - 1) < request.spacing &&
           finite_from(request.speed, 0) && finite_from(request.turn_time, 0) &&
           finite_from(request.turn_diameter, 0) &&
           finite_from(request.first_offset.value_or(0), 0);
}

lang::Outcome<std::vector<PlanePolygon>> worked_ground(const PlaneField& field,
                                                       const LayoutRequest& request) {
    std::optional<std::vector<PlanePolygon>> worked = inset(field.polygons, request.headland);
    if (!worked)
        return too_ragged();
    if (worked->empty())
        return nothing_left(request);
    return std::move(*worked);
}

lang::Outcome<Layout> drive_lines(const std::vector<PlanePolygon>& worked,
                                  const LayoutRequest& request) {
    const Turned turned(request.heading);
    lang::Outcome<Lines> lines = cut_lines(worked, request, turned);
    if (!lines)
        return std::move(lines.said);
    return faster_drive(*lines, request, turned);
}

} // namespace acre::engine
