#include "tests/fuzz/naive/rows.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace acre::fuzz::naive {

Turned::Turned(double heading)
    : east_(std::sin(heading * std::numbers::pi / 180)),
      north_(std::cos(heading * std::numbers::pi / 180)) {}

Spot Turned::in(engine::Point point) const {
    return {east_ * point.x + north_ * point.y, east_ * point.y - north_ * point.x};
}

Shape turned_ground(const std::vector<engine::PlanePolygon>& polygons, const Turned& turned,
                    long block) {
    Shape shape;
    const auto add = [&](const engine::PlaneRing& ring) {
        Loop& loop = shape.emplace_back();
        for (const engine::Point& point : ring)
            loop.push_back(turned.in(point));
    };
    for (const engine::PlanePolygon& polygon : polygons) {
        if (block >= 0 && polygon.block != static_cast<std::uint32_t>(block))
            continue;
        add(polygon.outer);
        for (const engine::PlaneRing& hole : polygon.holes)
            add(hole);
    }
    return shape;
}

std::vector<Line> lines_over(const Shape& ground, const engine::LayoutRequest& request) {
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    for (const Loop& loop : ground)
        for (const Spot& spot : loop) {
            low = std::min(low, spot.y);
            high = std::max(high, spot.y);
        }
    std::vector<Line> lines;
    const double width = request.spacing;
    double carried = 0; // passes that whole rows so far left over
    for (std::size_t row = 0;; ++row) {
        const double middle =
            low + request.first_offset.value_or(width / 2) + static_cast<double>(row) * width;
        if (!(middle < high))
            return lines;
        carried += request.passes_per_row;
        const double passes = std::floor(carried + 1e-6);
        carried -= passes;
        const double apart = request.pass_spacing > 0 ? request.pass_spacing : width / passes;
        for (double pass = 0; pass < passes; ++pass) {
            Line& line = lines.emplace_back();
            line.row = row;
            line.y = middle - apart * (passes - 1) / 2 + apart * pass;
            line.low = pass == 0 ? middle - width / 2 : line.y - apart / 2;
            line.high = pass == passes - 1 ? middle + width / 2 : line.y + apart / 2;
        }
    }
}

std::vector<Stretch> stretches(const std::vector<Shape>& grounds, double y, double short_by) {
    constexpr double shortest = 0.01; // m; nobody lowers a shank for less
    std::vector<Stretch> found;
    for (std::size_t block = 0; block < grounds.size(); ++block) {
        const std::vector<Cut> cuts = cuts_at(grounds[block], y);
        for (std::size_t i = 0; i + 1 < cuts.size(); i += 2) {
            const Cut& from = cuts[i];
            const Cut& to = cuts[i + 1];
            const double length = to.x - from.x - 2 * short_by;
            if (length > shortest - 1e-6)
                found.push_back({from.x + short_by, to.x - short_by, block,
                                 from.slanting || to.slanting,
                                 from.doubtful || to.doubtful || length < shortest + 1e-6});
        }
    }
    std::sort(found.begin(), found.end(),
              [](const Stretch& a, const Stretch& b) { return a.begin < b.begin; });
    return found;
}

Shape strip_of(const Line& line, const Stretch& stretch) {
    return {{{stretch.begin, line.low},
             {stretch.end, line.low},
             {stretch.end, line.high},
             {stretch.begin, line.high}}};
}

} // namespace acre::fuzz::naive
