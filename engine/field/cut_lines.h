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

// One line, however often the ground cuts it: a pass along a row. Several passes of one row lie
// beside each other and share its strip.
struct Track {
    double y = 0;
    double low = 0, high = 0; // y; the strip that counts as ripped by it
    std::uint32_t row = 0;    // counted from the first
};

struct Segment { // of one track, inside the ground and between its row ends
    std::uint32_t track = 0;
    std::uint32_t block = 0;
    double begin = 0, end = 0; // x
    bool slanting = false;     // an edge it ends at makes less than 45 degrees with it
};

struct Lines {
    std::vector<Track> tracks;     // by y
    std::vector<Segment> segments; // by track, then x
    std::size_t rows = 0;          // with at least one segment
};

// The same tracks cut by other ground, to its edges: by track, then x. None if they are too many.
std::vector<Segment> cut_tracks(const std::vector<PlanePolygon>& polygons,
                                const std::vector<Track>& tracks, const Turned& turned);

// B909: no pull fits. B910: too many pulls.
lang::Outcome<Lines> cut_lines(const std::vector<PlanePolygon>& polygons,
                               const LayoutRequest& request, const Turned& turned);

} // namespace acre::engine
