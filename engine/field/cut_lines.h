// Lines at one heading cut by the edges of the worked ground: where each is inside.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numbers>
#include <vector>

#include "engine/field/layout.h"
#include "engine/field/plane.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

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

struct Segment { // of one line, inside the ground and between its row ends
    std::uint32_t row = 0;
    double begin = 0, end = 0; // x
    bool slanting = false;     // an edge it ends at makes less than 45 degrees with it
};

struct Lines {
    double first = 0;              // y of row 0
    std::vector<Segment> segments; // by row, then x
    std::size_t rows = 0;          // with at least one segment
};

// B909: no pull fits. B910: too many pulls.
lang::Outcome<Lines> cut_lines(const std::vector<PlanePolygon>& polygons,
                               const LayoutRequest& request, const Turned& turned);

} // namespace acre::engine
