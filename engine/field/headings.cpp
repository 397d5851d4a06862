#include "engine/field/headings.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <utility>

#include "engine/field/clipping.h"
#include "engine/field/drive_lines.h"
#include "engine/field/layout_faults.h"

namespace acre::engine {
namespace {

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

lang::Outcome<std::vector<HeadingTime>> rank_headings(const PlaneField& field,
                                                      const std::vector<PlanePolygon>& worked,
                                                      const LayoutRequest& request) {
    if (!is_good(request))
        return bad_request(request);
    std::vector<HeadingTime> ranked;
    if (request.speed <= 0)
        return ranked;
    LayoutRequest turned = request;
    const std::size_t edges = points_of(worked);
    // A pull is two cuts and its way, a turn on the way many steps of calculation.
    const std::size_t steps_of_pull = request.turn_diameter > 0 ? 160 : 20;
    std::size_t effort = 0;
    for (const double heading : headings_to_try(field)) {
        turned.heading = heading;
        const lang::Outcome<Layout> layout = drive_lines(worked, turned);
        if (layout)
            ranked.push_back({heading, layout->time(), layout->travel, layout->turns});
        effort += edges + (layout ? layout->pulls.size() : max_pulls) * steps_of_pull;
        if (effort > most_heading_effort)
            return too_much_to_search();
    }
    std::stable_sort(ranked.begin(), ranked.end(),
                     [](const HeadingTime& a, const HeadingTime& b) { return a.time < b.time; });
    return ranked;
}

} // namespace acre::engine
