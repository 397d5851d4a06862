#include "engine/field/plane.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
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
#include <polyclipping/clipper.hpp>

namespace acre::engine {
namespace {

namespace bg = boost::geometry;
using BoostPoint = bg::model::d2::point_xy<double>;
using BoostPolygon = bg::model::polygon<BoostPoint, false, false>; // counter-clockwise, open
using BoostField = bg::model::multi_polygon<BoostPolygon>;

struct RingMeasure {
    double area, perimeter;
};
RingMeasure measure(const LonLatRing& ring) {
    GeographicLib::PolygonArea polygon(GeographicLib::Geodesic::WGS84());
    for (const LonLat& point : ring)
        polygon.AddPoint(point.lat, point.lon);
    double perimeter = 0;
    double area = 0;
    polygon.Compute(false, true, perimeter, area);
    return {std::abs(area), perimeter};
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
    double x = 0;
    double y = 0;
    const std::size_t open = message.find('(');
    if (open == std::string::npos || std::sscanf(message.c_str() + open, "(%lf, %lf)", &x, &y) != 2)
        return {};
    const LonLat where = to_globe(field, {x, y});
    return fmt::format("near longitude {:.6f}, latitude {:.6f}", where.lon, where.lat);
}

// The rings one by one first, so that a ring at fault is told from rings that do not fit together.
bool is_sound(const PlaneField& field, lang::FileId file, lang::Diagnostics& diagnostics) {
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
    bool whole = field.polygons.size() > 1;
    for (const PlanePolygon& polygon : field.polygons) {
        whole = whole || !polygon.holes.empty();
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
    return !whole || sound(to_boost(field.polygons), lang::Code::B908,
                           "holes or polygons of the boundary overlap or lie outside one another");
}

// The ring without points that bend it by less than a centimetre (Douglas and Peucker): they cost
// much time and move no headland.
PlaneRing thinned(const PlaneRing& ring) {
    bg::model::linestring<BoostPoint> line;
    bg::model::linestring<BoostPoint> thin;
    line.reserve(ring.size() + 1);
    for (const Point& point : ring)
        line.emplace_back(point.x, point.y);
    line.push_back(line.front());
    bg::simplify(line, thin, 0.01);
    PlaneRing result;
    for (std::size_t i = 0; i + 1 < thin.size(); ++i)
        result.push_back({thin[i].x(), thin[i].y()});
    return result.size() < 3 ? ring : result;
}

// Clipper works in whole numbers; a tenth of a millimetre is far below what a boundary is known to.
constexpr double clipper_unit = 1e-4;

ClipperLib::Path to_clipper(const PlaneRing& ring) {
    ClipperLib::Path path;
    path.reserve(ring.size());
    for (const Point& point : ring)
        path.emplace_back(std::llround(point.x / clipper_unit),
                          std::llround(point.y / clipper_unit));
    return path;
}
PlaneRing from_clipper(const ClipperLib::Path& path) {
    PlaneRing ring;
    ring.reserve(path.size());
    for (const ClipperLib::IntPoint& point : path)
        ring.push_back({static_cast<double>(point.X) * clipper_unit,
                        static_cast<double>(point.Y) * clipper_unit});
    return ring;
}
void collect(const ClipperLib::PolyNode& node, std::vector<PlanePolygon>& polygons) {
    for (const ClipperLib::PolyNode* outer : node.Childs) {
        PlanePolygon& polygon = polygons.emplace_back();
        polygon.outer = from_clipper(outer->Contour);
        for (const ClipperLib::PolyNode* hole : outer->Childs)
            polygon.holes.push_back(from_clipper(hole->Contour));
        for (const ClipperLib::PolyNode* hole : outer->Childs)
            collect(*hole, polygons);
    }
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

std::optional<PlaneField> lay_flat(const Boundary& boundary, const lang::SourceMap&,
                                   lang::FileId file, lang::Diagnostics& diagnostics) {
    PlaneField field;
    field.middle = middle_of(boundary);
    const GeographicLib::AzimuthalEquidistant projection(GeographicLib::Geodesic::WGS84());
    for (const BoundaryPolygon& polygon : boundary.polygons) {
        PlanePolygon& plane = field.polygons.emplace_back();
        plane.outer = flatten(projection, field.middle, polygon.outer);
        const RingMeasure outer = measure(polygon.outer);
        field.outer_area += outer.area;
        field.area += outer.area;
        field.perimeter += outer.perimeter;
        for (const LonLatRing& hole : polygon.holes) {
            plane.holes.push_back(flatten(projection, field.middle, hole));
            field.area -= geodesic_area(hole);
        }
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
    if (!is_sound(field, file, diagnostics))
        return std::nullopt;
    return field;
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

std::vector<PlanePolygon> inset(const std::vector<PlanePolygon>& polygons, double distance) {
    if (distance <= 0)
        return polygons;
    ClipperLib::ClipperOffset offset(2.0, 0.01 / clipper_unit);
    for (const PlanePolygon& polygon : polygons) {
        offset.AddPath(to_clipper(thinned(polygon.outer)), ClipperLib::jtMiter,
                       ClipperLib::etClosedPolygon);
        for (const PlaneRing& hole : polygon.holes)
            offset.AddPath(to_clipper(thinned(hole)), ClipperLib::jtMiter,
                           ClipperLib::etClosedPolygon);
    }
    ClipperLib::PolyTree tree;
    offset.Execute(tree, -distance / clipper_unit);
    std::vector<PlanePolygon> result;
    collect(tree, result);
    return result;
}

} // namespace acre::engine
