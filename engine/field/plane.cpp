#include "engine/field/plane.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>
#include <string>
#include <string_view>
#include <utility>

// Without the rescaling of old releases: it rounds to whole numbers, and newer releases have
// dropped it.
#define BOOST_GEOMETRY_NO_ROBUSTNESS

#include <GeographicLib/AzimuthalEquidistant.hpp>
#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/PolygonArea.hpp>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <fmt/format.h>

#include "engine/field/box_pairs.h"
#include "engine/field/features.h"
#include "engine/field/fences.h"
#include "engine/field/keep_off.h"
#include "engine/field/marks.h"
#include "engine/field/touching_holes.h"
#include "lang/units/convert.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

namespace bg = boost::geometry;
using BoostPoint = bg::model::d2::point_xy<double>;
using BoostPolygon = bg::model::polygon<BoostPoint, false, false>; // counter-clockwise, open
using BoostField = bg::model::multi_polygon<BoostPolygon>;

struct RingMeasure {
    double area = 0, perimeter = 0;
};
RingMeasure measure(const LonLatRing& ring) {
    GeographicLib::PolygonArea polygon(GeographicLib::Geodesic::WGS84());
    for (const LonLat& point : ring)
        polygon.AddPoint(point.lat, point.lon);
    RingMeasure is;
    polygon.Compute(false, true, is.perimeter, is.area);
    is.area = std::abs(is.area);
    return is;
}

LonLat middle_of(const Boundary& boundary) {
    LonLat low = boundary.polygons[0].outer[0];
    LonLat high = low;
    for (const BoundaryPolygon& polygon : boundary.polygons)
        for (const LonLat& point : polygon.outer) {
            low = {std::min(low.lon, point.lon), std::min(low.lat, point.lat)};
            high = {std::max(high.lon, point.lon), std::max(high.lat, point.lat)};
        }
    return {(low.lon + high.lon) / 2, (low.lat + high.lat) / 2};
}

PlaneRing flatten(const GeographicLib::AzimuthalEquidistant& projection, LonLat middle,
                  const LonLatRing& ring) {
    PlaneRing plane;
    plane.reserve(ring.size());
    for (const LonLat& point : ring) {
        Point at;
        projection.Forward(middle.lat, middle.lon, point.lat, point.lon, at.x, at.y);
        plane.push_back(at);
    }
    return plane;
}

BoostField to_boost(const std::vector<PlanePolygon>& polygons) {
    BoostField field;
    const auto copy = [](const PlaneRing& from, auto& to) {
        to.reserve(from.size());
        for (const Point& point : from)
            to.emplace_back(point.x, point.y);
    };
    for (const PlanePolygon& polygon : polygons) {
        BoostPolygon& to = field.emplace_back();
        copy(polygon.outer, to.outer());
        to.inners().resize(polygon.holes.size());
        for (std::size_t i = 0; i < polygon.holes.size(); ++i)
            copy(polygon.holes[i], to.inners()[i]);
    }
    return field;
}

// Where the check of a shape failed; only the library's message holds the place, in metres of our
// plane.
std::string place_of(const PlaneField& field, const std::string& message) {
    Point at;
    const std::size_t open = message.find('(');
    if (open == std::string::npos ||
        std::sscanf(message.c_str() + open, "(%lf, %lf)", &at.x, &at.y) != 2)
        return {};
    const LonLat where = to_globe(field, at);
    return fmt::format("near longitude {:.6f}, latitude {:.6f}", where.lon, where.lat);
}

// What is left of a block when its holes are taken off, and its areas.
void put_in_place(const std::vector<PlanePolygon>& rest, const std::vector<PlanePolygon>& block,
                  std::uint32_t number, PlaneField& field) {
    field.holes_touched = true;
    field.area += plane_area(rest) - plane_area(block);
    field.outer_area += outer_area(rest) - outer_area(block);
    std::erase_if(field.polygons, [&](const PlanePolygon& one) { return one.block == number; });
    field.polygons.insert(field.polygons.end(), rest.begin(), rest.end());
}

// The rings one by one first, so that a ring at fault is told from rings that do not fit together.
bool is_sound(PlaneField& field, lang::FileId file, lang::Diagnostics& diagnostics) {
    const auto sound = [&](const BoostField& shape, lang::Code code, std::string_view title) {
        std::string message;
        if (bg::is_valid(shape, message))
            return true;
        lang::Diagnostic diagnostic{code, std::string(title), {{file, 0, 1}, ""}, {}, {}, {}};
        if (std::string place = place_of(field, message); !place.empty())
            diagnostic.notes.push_back(std::move(place));
        diagnostic.helps.push_back(
            {"redraw the boundary so that no edges meet and every hole is inside its polygon", {}});
        diagnostics.add(std::move(diagnostic));
        return false;
    };
    std::map<std::uint32_t, std::vector<PlanePolygon>> blocks;
    std::map<std::uint32_t, bool> whole; // more than one ring
    for (const PlanePolygon& polygon : field.polygons) {
        std::vector<PlanePolygon>& block = blocks[polygon.block];
        whole[polygon.block] |= !block.empty() || !polygon.holes.empty();
        block.push_back(polygon);
        if (!sound(to_boost({{polygon.outer, {}}}), lang::Code::B904,
                   "the boundary crosses or touches itself"))
            return false;
        for (PlaneRing hole : polygon.holes) {
            std::reverse(hole.begin(), hole.end());
            if (!sound(to_boost({{std::move(hole), {}}}), lang::Code::B904,
                       "a hole of the boundary crosses or touches itself"))
                return false;
        }
    }
    for (const auto& [number, block] : blocks) {
        if (!whole[number] || bg::is_valid(to_boost(block)))
            continue;
        std::vector<PlanePolygon> outers = block;
        for (PlanePolygon& polygon : outers)
            polygon.holes.clear();
        const std::optional<std::vector<PlanePolygon>> rest =
            bg::is_valid(to_boost(outers)) ? taken_off(block) : std::nullopt;
        if (rest && !rest->empty())
            put_in_place(*rest, block, number, field);
        else
            return sound(to_boost(block), lang::Code::B908,
                         "holes or polygons of the boundary overlap or lie outside one another");
    }
    return true;
}

lang::Diagnostic too_ragged_to_check(lang::FileId file) {
    return {lang::Code::B907,
            "the boundary is too ragged to check",
            {{file, 0, 1}, ""},
            {},
            {},
            {{"thin the boundary out: a point every few feet is enough", {}}}};
}

lang::Diagnostic drawn_twice(const Fences::Doubled& doubled, const Boundary& boundary,
                             lang::FileId file) {
    const std::string first = block_name(boundary, doubled.first);
    const std::string second = block_name(boundary, doubled.second);
    lang::Diagnostic diagnostic{lang::Code::B908, "", {{file, 0, 1}, ""}, {}, {}, {}};
    if (doubled.inside) {
        diagnostic.title = fmt::format("`{}` lies within `{}`", second, first);
        diagnostic.helps = {
            {fmt::format("if it is not ripped, as a pond or a yard, make it a hole of `{}`: a "
                         "second ring of its polygon",
                         first),
             {}},
            {fmt::format("if it is ground of its own, cut it out of `{}` and keep both", first),
             {}}};
        return diagnostic;
    }
    diagnostic.title = fmt::format("`{}` and `{}` overlap by more than a fence", first, second);
    diagnostic.notes = {
        fmt::format("up to {} is taken for a fence that both have",
                    lang::quantity_text(lang::convert(widest_fence_overlap, "m", "ft"), "ft"))};
    diagnostic.helps = {{"take one of the two out, or redraw the fence between them", {}}};
    return diagnostic;
}

// False: two blocks are the same ground.
bool take_fences(const Boundary& boundary, PlaneField& field, lang::FileId file,
                 lang::Diagnostics& diagnostics) {
    const Fences fences = part_blocks(field.polygons);
    if (fences.too_many) {
        diagnostics.add(too_ragged_to_check(file));
        return false;
    }
    if (fences.doubled) {
        diagnostics.add(drawn_twice(*fences.doubled, boundary, file));
        return false;
    }
    field.shared = fences.given;
    field.area -= fences.given;
    field.outer_area -= fences.given;
    return true;
}

double twice_area(const PlaneRing& ring) {
    double twice = 0;
    for (std::size_t i = 0, n = ring.size(); i < n; ++i) {
        const Point& a = ring[i];
        const Point& b = ring[i + 1 == n ? 0 : i + 1];
        twice += a.x * b.y - b.x * a.y;
    }
    return std::abs(twice);
}

} // namespace

double geodesic_area(const LonLatRing& ring) {
    return measure(ring).area;
}

std::optional<PlaneField> lay_flat(const Boundary& boundary, const lang::SourceMap& sources,
                                   lang::FileId file, lang::Diagnostics& diagnostics) {
    PlaneField field;
    field.middle = middle_of(boundary);
    field.polygons = flat_polygons(boundary, field.middle);
    for (const BoundaryPolygon& polygon : boundary.polygons) {
        const RingMeasure outer = measure(polygon.outer);
        field.outer_area += outer.area;
        field.area += outer.area;
        field.perimeter += outer.perimeter;
        for (const LonLatRing& hole : polygon.holes)
            field.area -= geodesic_area(hole);
    }
    constexpr double widest =
        60'000; // m; the plane is true to one part in a hundred thousand up to here
    for (const PlanePolygon& polygon : field.polygons)
        for (const Point& point : polygon.outer)
            if (std::hypot(point.x, point.y) > widest) {
                diagnostics.add(
                    {lang::Code::B906,
                     "the field is too wide to lay out",
                     {{file, 0, 1}, ""},
                     {},
                     {fmt::format(
                         "its points are up to {:.0f} km from its center; the limit is 60 km",
                         std::hypot(point.x, point.y) / 1000)},
                     {}});
                return std::nullopt;
            }
    if (box_pairs(field.polygons) > most_box_pairs) {
        diagnostics.add(too_ragged_to_check(file));
        return std::nullopt;
    }
    if (!is_sound(field, file, diagnostics) || !take_fences(boundary, field, file, diagnostics))
        return std::nullopt;
    tell_of_marks(boundary, field, sources, diagnostics);
    if (!keep_off(boundary, field, file, diagnostics))
        return std::nullopt;
    return field;
}

PlaneRing flat_ring(const LonLatRing& ring, LonLat middle) {
    return flatten(GeographicLib::AzimuthalEquidistant(GeographicLib::Geodesic::WGS84()), middle,
                   ring);
}

std::vector<PlanePolygon> flat_polygons(const Boundary& boundary, LonLat middle) {
    const GeographicLib::AzimuthalEquidistant projection(GeographicLib::Geodesic::WGS84());
    std::vector<PlanePolygon> polygons;
    for (const BoundaryPolygon& polygon : boundary.polygons) {
        PlanePolygon& plane = polygons.emplace_back();
        plane.block = polygon.block;
        plane.outer = flatten(projection, middle, polygon.outer);
        for (const LonLatRing& hole : polygon.holes)
            plane.holes.push_back(flatten(projection, middle, hole));
    }
    return polygons;
}

LonLat to_globe(const PlaneField& field, Point point) {
    const GeographicLib::AzimuthalEquidistant projection(GeographicLib::Geodesic::WGS84());
    LonLat at;
    projection.Reverse(field.middle.lat, field.middle.lon, point.x, point.y, at.lat, at.lon);
    return at;
}

double plane_area(const std::vector<PlanePolygon>& polygons) {
    double twice = 0;
    for (const PlanePolygon& polygon : polygons) {
        twice += twice_area(polygon.outer);
        for (const PlaneRing& hole : polygon.holes)
            twice -= twice_area(hole);
    }
    return twice / 2;
}

double outer_area(std::vector<PlanePolygon> polygons) {
    for (PlanePolygon& polygon : polygons)
        polygon.holes.clear();
    return plane_area(polygons);
}

} // namespace acre::engine
