// A boundary laid flat around its middle: metres east and north, azimuthal equidistant. Over a
// field of a few miles the scale is true to about one part in ten million; areas are taken on the
// ellipsoid all the same.
#pragma once

#include <optional>
#include <vector>

#include "engine/field/boundary.h"

namespace acre::engine {

struct Point {
    double x = 0, y = 0; // metres east and north
};
using PlaneRing = std::vector<Point>;

struct PlanePolygon {
    PlaneRing outer;
    std::vector<PlaneRing> holes;
};

struct PlaneField {
    LonLat middle;
    std::vector<PlanePolygon> polygons;
    double outer_area = 0; // m², geodesic, holes not taken off
    double area = 0;       // m², geodesic, without the holes
    double perimeter = 0;  // m, geodesic, outer rings
};

// Geodesic area in m² inside one ring (Karney 2013, through GeographicLib), whichever way round it
// runs.
double geodesic_area(const LonLatRing& ring);

// Reports B904 (a ring crosses itself, with the place) and B908 (a hole outside its ring, polygons
// that overlap).
std::optional<PlaneField> lay_flat(const Boundary& boundary, const lang::SourceMap& sources,
                                   lang::FileId file, lang::Diagnostics& diagnostics);

LonLat to_globe(const PlaneField& field, Point point);

// Area in m² in the plane, holes taken off.
double plane_area(const std::vector<PlanePolygon>& polygons);

// The polygons shrunk by `distance` metres from every edge; may fall into pieces or vanish.
std::vector<PlanePolygon> inset(const std::vector<PlanePolygon>& polygons, double distance);

} // namespace acre::engine
