// Measures a layout with Boost.Geometry alone: nothing of how the layout is made is used here, only
// its pulls and the ground.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <random>
#include <vector>

// Without the rescaling of old releases: it rounds to whole numbers.
#define BOOST_GEOMETRY_NO_ROBUSTNESS

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/linestring.hpp>
#include <boost/geometry/geometries/multi_linestring.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

#include "engine/field/layout.h"

namespace field_checker {

namespace bg = boost::geometry;
using acre::engine::LayoutRequest;
using acre::engine::PlaneField;
using acre::engine::PlanePolygon;
using acre::engine::PlaneRing;
using acre::engine::Point;
using acre::engine::Pull;
using BoostPoint = bg::model::d2::point_xy<double>;
using BoostPolygon = bg::model::polygon<BoostPoint>;
using BoostPolygons = bg::model::multi_polygon<BoostPolygon>;
using BoostLine = bg::model::linestring<BoostPoint>;
using BoostLines = bg::model::multi_linestring<BoostLine>;

inline double dice(std::mt19937_64& random, double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 11) * 0x1p-53;
}
inline double straight(Point a, Point b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

inline PlaneRing star(std::mt19937_64& random, Point middle, int points, double radius) {
    PlaneRing ring;
    for (int i = 0; i < points; ++i) {
        const double angle = 2 * std::numbers::pi * i / points;
        const double r = dice(random, 0.4, 1) * radius;
        ring.push_back({middle.x + r * std::cos(angle), middle.y + r * std::sin(angle)});
    }
    return ring;
}
// A rectangle with a notch in its upper edge.
inline PlaneRing notched(std::mt19937_64& random, Point middle, double radius) {
    const double a = middle.x - radius * dice(random, 0.5, 1);
    const double b = middle.x + radius * dice(random, 0.5, 1);
    const double low = middle.y - radius * dice(random, 0.3, 1);
    const double high = middle.y + radius * dice(random, 0.3, 1);
    const double from = a + (b - a) * dice(random, 0.2, 0.5);
    const double to = from + (b - a) * dice(random, 0.05, 0.3);
    const double floor = low + (high - low) * dice(random, 0.1, 0.9);
    return {{a, low},    {b, low},      {b, high},    {to, high},
            {to, floor}, {from, floor}, {from, high}, {a, high}};
}

// One to three blocks, stars or notched, with a hole or none.
inline PlaneField some_field(std::mt19937_64& random, double radius) {
    PlaneField field;
    const auto blocks = 1 + random() % 3;
    double x = 0;
    for (std::size_t block = 0; block < blocks; ++block) {
        const Point middle{x, dice(random, -radius, radius)};
        x += 2 * radius + dice(random, 1, 3 * radius);
        PlanePolygon polygon;
        if (random() % 3 == 0) {
            polygon.outer = notched(random, middle, radius);
        } else {
            polygon.outer = star(random, middle, 3 + static_cast<int>(random() % 20), radius);
            if (random() % 2 == 0)
                polygon.holes.push_back(star(random, middle, 5, radius / 4));
        }
        polygon.block = static_cast<std::uint32_t>(random() % 2 == 0 ? 0 : block);
        field.polygons.push_back(std::move(polygon));
    }
    field.area = acre::engine::plane_area(field.polygons);
    return field;
}

// The polygons of one block, or of all.
inline BoostPolygons in_boost(const std::vector<PlanePolygon>& polygons,
                              std::ptrdiff_t block = -1) {
    BoostPolygons out;
    const auto copy = [](const PlaneRing& from, auto& to) {
        for (const Point& p : from)
            to.push_back({p.x, p.y});
    };
    for (const PlanePolygon& polygon : polygons) {
        if (block >= 0 && polygon.block != static_cast<std::size_t>(block))
            continue;
        BoostPolygon& to = out.emplace_back();
        copy(polygon.outer, to.outer());
        for (const PlaneRing& hole : polygon.holes)
            copy(hole, to.inners().emplace_back());
    }
    bg::correct(out);
    return out;
}

// Seen along and across the heading.
struct Seen {
    double east, north; // of the direction of travel
    explicit Seen(double heading)
        : east(std::sin(heading * std::numbers::pi / 180)),
          north(std::cos(heading * std::numbers::pi / 180)) {}
    double along(Point p) const { return p.x * east + p.y * north; }
    double across(Point p) const { return p.y * east - p.x * north; }
    Point at(double far, double aside) const {
        return {far * east - aside * north, far * north + aside * east};
    }
};

// Lines that rip one row: with one and a half a row, every other has two.
inline int passes_of(std::size_t row, double passes) {
    const auto before = static_cast<double>(row) * passes;
    return static_cast<int>(std::floor(before + passes + 1e-9) - std::floor(before + 1e-9));
}

// The ground beside a pull that it rips: its share of the row's width, a hundred-thousandth short
// of it: that library slips where the edges of two strips are one line.
inline BoostPolygon strip(const Pull& pull, double width) {
    width *= 1 - 1e-5;
    const double length = straight(pull.from, pull.to);
    const double x = (pull.to.x - pull.from.x) / length * width / 2;
    const double y = (pull.to.y - pull.from.y) / length * width / 2;
    BoostPolygon out;
    for (const Point& p :
         {Point{pull.from.x - y, pull.from.y + x}, Point{pull.to.x - y, pull.to.y + x},
          Point{pull.to.x + y, pull.to.y - x}, Point{pull.from.x + y, pull.from.y - x}})
        out.outer().push_back({p.x, p.y});
    bg::correct(out);
    return out;
}

struct Covered {
    double ripped = 0;  // m² of ground in at least one strip
    double doubled = 0; // m² in two
};

// Strips clipped to the ground of their block, and what pairs of them share.
inline Covered covered(const std::vector<PlanePolygon>& ground, const std::vector<Pull>& pulls,
                       const LayoutRequest& request) {
    struct Piece {
        BoostPolygons shape;
        bg::model::box<BoostPoint> box;
    };
    std::vector<Piece> pieces;
    std::vector<BoostPolygons> blocks;
    Covered sum;
    for (const Pull& pull : pulls) {
        while (blocks.size() <= pull.block)
            blocks.push_back(in_boost(ground, static_cast<std::ptrdiff_t>(blocks.size())));
        Piece& piece = pieces.emplace_back();
        bg::intersection(blocks[pull.block],
                         strip(pull, request.spacing / passes_of(pull.row, request.passes_per_row)),
                         piece.shape);
        bg::envelope(piece.shape, piece.box);
        sum.ripped += bg::area(piece.shape);
    }
    for (std::size_t i = 0; i < pieces.size(); ++i)
        for (std::size_t k = i + 1; k < pieces.size(); ++k)
            if (bg::intersects(pieces[i].box, pieces[k].box)) {
                BoostPolygons both;
                bg::intersection(pieces[i].shape, pieces[k].shape, both);
                sum.doubled += bg::area(both);
            }
    sum.ripped -= sum.doubled;
    return sum;
}

// Length of a line across the ground, `short_by` taken off both ends of each piece.
inline double line_inside(const BoostPolygons& ground, Point from, Point to, double short_by) {
    BoostLine line{{from.x, from.y}, {to.x, to.y}};
    BoostLines inside;
    bg::intersection(line, ground, inside);
    double sum = 0;
    for (const BoostLine& piece : inside)
        if (const auto length = static_cast<double>(bg::length(piece)) - 2 * short_by;
            length >= 0.01)
            sum += length;
    return sum;
}

} // namespace field_checker
