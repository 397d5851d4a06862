// A boundary laid flat around its middle: metres east and north, azimuthal equidistant. Over a
// field of a few miles the scale is true to about one part in ten million; areas are taken on the
// ellipsoid all the same.
#pragma once

#include <cstdint>
#include <map>
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
    std::uint32_t block = 0; // of the field: no pull goes from one block into another
};

struct PlaneField {
    LonLat middle;
    std::vector<PlanePolygon> polygons;
    double outer_area = 0;      // m², geodesic, holes not taken off
    double area = 0;            // m², geodesic, without the holes and what is kept off
    double perimeter = 0;       // m, geodesic, outer rings
    double shared = 0;          // m² that two blocks had along a fence, counted once
    bool holes_touched = false; // an edge or each other, and were taken off along it
    // m² by block, of what is kept off: what is no hole of what is left.
    std::map<std::uint32_t, double> kept_off;
};

// Geodesic area in m² inside one ring (Karney 2013, through GeographicLib), whichever way round it
// runs.
double geodesic_area(const LonLatRing& ring);

// Where blocks overlap along a fence, the first of them has the ground; a hole up to the edge is a
// notch. Reports B904 (a ring
// crosses itself, with the place), B907 (too ragged to check) and B908 (a hole outside its ring,
// polygons or blocks that overlap by more than a fence).
std::optional<PlaneField> lay_flat(const Boundary& boundary, const lang::SourceMap& sources,
                                   lang::FileId file, lang::Diagnostics& diagnostics);

PlaneRing flat_ring(const LonLatRing& ring, LonLat middle);
// The polygons of a boundary around another middle, unchecked.
std::vector<PlanePolygon> flat_polygons(const Boundary& boundary, LonLat middle);

LonLat to_globe(const PlaneField& field, Point point);

// Area in m² in the plane, holes taken off.
double plane_area(const std::vector<PlanePolygon>& polygons);
double outer_area(std::vector<PlanePolygon> polygons); // with the holes

} // namespace acre::engine
