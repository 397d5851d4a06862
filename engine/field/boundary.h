// A field boundary as a GeoJSON text says it (RFC 7946, WGS 84 longitude and latitude in degrees).
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::engine {

inline constexpr std::size_t max_boundary_vertices = 200'000;
inline constexpr int max_boundary_depth = 64; // of its JSON
inline constexpr std::size_t most_boundary_blocks = 20'000;

struct LonLat {
    double lon = 0, lat = 0;
    friend bool operator==(const LonLat&, const LonLat&) = default;
};
using LonLatRing = std::vector<LonLat>; // the first point is not repeated at the end

struct BoundaryPolygon {
    LonLatRing outer;              // counter-clockwise
    std::vector<LonLatRing> holes; // clockwise: a pump yard, a pond
    std::uint32_t block = 0;       // into Boundary::blocks
};

// What a feature says of its ground besides its shape: soil, depth, a grower's number.
struct BoundaryProperty {
    std::string name, value; // a number as it is written
};

struct BoundaryBlock { // one feature with polygons; polygons outside of features are one
    std::string name;  // may be empty
    std::vector<BoundaryProperty> properties;
    std::size_t number = 0; // in its file, from 1
    std::string file;       // as it was named; set by who reads several
};

// What a file has besides ground: a line or a point, as a road, a ditch, a well; or what the shank
// stays off, as a pond.
struct BoundaryMark {
    std::string name;  // of its feature; may be empty
    LonLatRing points; // one: a point
    lang::Span at;
    bool closed = false;            // a ring: all within it is meant
    std::optional<double> keep_off; // m on every side; empty: nothing keeps a pull off
};

struct Boundary {
    std::string name;                      // of the feature, if it has one
    std::vector<BoundaryPolygon> polygons; // one at least
    std::vector<std::string> repairs;      // what was mended on the way in, to be shown
    std::vector<BoundaryBlock> blocks{};   // each with a polygon
    std::vector<BoundaryMark> marks{};
};

// Takes Polygon, MultiPolygon, GeometryCollection, Feature and FeatureCollection. All polygons
// together are the field, each feature a block of it. A ring that is open, runs the wrong way round
// or repeats points is mended and said so; everything else is an error (B9xx) with its place in the
// text.
std::optional<Boundary> read_boundary(const lang::SourceMap& sources, lang::FileId file,
                                      lang::Diagnostics& diagnostics);

} // namespace acre::engine
