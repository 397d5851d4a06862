#include "engine/field/marks.h"

#include <algorithm>
#include <string>

#include <fmt/format.h>

#include "engine/field/clipping.h"
#include "engine/field/inset.h"

namespace acre::engine {
namespace {

// Of the straight line from `a` to `b` the part in one ring's edges: where it crosses them, as
// shares of its length.
void take_crossings(const PlaneRing& ring, Point a, Point b, std::vector<double>& at) {
    for (std::size_t i = 0, n = ring.size(); i < n; ++i) {
        const Point& c = ring[i];
        const Point& d = ring[i + 1 == n ? 0 : i + 1];
        const double turn = (b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x);
        if (turn == 0)
            continue;
        const double t = ((c.x - a.x) * (d.y - c.y) - (c.y - a.y) * (d.x - c.x)) / turn;
        const double u = ((c.x - a.x) * (b.y - a.y) - (c.y - a.y) * (b.x - a.x)) / turn;
        if (t > 0 && t < 1 && u >= 0 && u < 1)
            at.push_back(t);
    }
}
bool is_inside(const PlaneRing& ring, Point p) {
    bool inside = false;
    for (std::size_t i = 0, n = ring.size(); i < n; ++i) {
        const Point& a = ring[i];
        const Point& b = ring[i + 1 == n ? 0 : i + 1];
        if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x))
            inside = !inside;
    }
    return inside;
}
bool is_on(const PlanePolygon& polygon, Point p) {
    return is_inside(polygon.outer, p) &&
           std::none_of(
               polygon.holes.begin(), polygon.holes.end(),
               [&](const PlaneRing& hole) { return is_inside(hole, p); });
}

// Whether any of the straight line lies on the ground.
bool goes_over(const PlanePolygon& polygon, Point a, Point b) {
    std::vector<double> at = {0, 1};
    take_crossings(polygon.outer, a, b, at);
    for (const PlaneRing& hole : polygon.holes)
        take_crossings(hole, a, b, at);
    std::sort(at.begin(), at.end());
    for (std::size_t i = 0; i + 1 < at.size(); ++i) {
        const double middle = (at[i] + at[i + 1]) / 2;
        if (is_on(polygon, {a.x + middle * (b.x - a.x), a.y + middle * (b.y - a.y)}))
            return true;
    }
    return false;
}

// A line along the edge of the ground goes over it by what its points are rounded to, and where the
// globe bends: so near to the edge it is beside the ground.
constexpr double beside = 1; // m

bool is_on_ground(const PlaneRing& mark, const std::vector<PlanePolygon>& ground) {
    if (mark.size() == 1)
        return std::any_of(ground.begin(), ground.end(),
                           [&](const PlanePolygon& polygon) { return is_on(polygon, mark[0]); });
    for (const PlanePolygon& polygon : ground)
        for (std::size_t i = 0; i + 1 < mark.size(); ++i)
            if (goes_over(polygon, mark[i], mark[i + 1]))
                return true;
    return false;
}

// What they are called, the first few of them.
std::string listed(const std::vector<const BoundaryMark*>& marks) {
    constexpr std::size_t most_listed = 6;
    std::string names;
    for (std::size_t i = 0; i < std::min(marks.size(), most_listed); ++i)
        names += fmt::format("{}{}", i == 0 ? "" : ", ",
                             !marks[i]->name.empty()        ? "`" + marks[i]->name + "`"
                             : marks[i]->points.size() == 1 ? "a point without a name"
                                                            : "a line without a name");
    return names + (marks.size() > most_listed ? ", …" : "");
}

} // namespace

void tell_of_marks(const Boundary& boundary, const PlaneField& field,
                   const lang::SourceMap& sources, lang::Diagnostics& diagnostics) {
    if (boundary.marks.empty())
        return;
    const std::vector<PlanePolygon> ground =
        inset(field.polygons, beside).value_or(field.polygons); // too ragged to be shrunk
    const std::size_t edges = points_of(ground);
    std::size_t steps = 0;
    std::vector<const BoundaryMark*> on_ground;
    for (const BoundaryMark& mark : boundary.marks) {
        if (mark.keep_off)
            continue;
        steps += mark.points.size() * edges;
        // Too many to look where they lie: better told for nothing than not.
        if (steps > most_mark_steps || is_on_ground(flat_ring(mark.points, field.middle), ground))
            on_ground.push_back(&mark);
    }
    if (on_ground.empty())
        return;
    const lang::Span at = on_ground.front()->at;
    diagnostics.add(
        {lang::Code::L844,
         fmt::format("pulls go over {} of {}", listed(on_ground), sources.file(at.file).name()),
         {at, "no ground, and nothing keeps off it"},
         {},
         {"a line or a point takes no ground away"},
         {{"where the shank must stay off, give the feature a property, as in "
           "\"keep_off\": \"25 ft\": so far from it on every side nothing is ripped",
           {}},
          {"what may be ripped, take out of the file", {}}}});
}

} // namespace acre::engine
