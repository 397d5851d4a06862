// Rings as the clipping library has them. For the files that call it; no header includes this.
#pragma once

#include <cmath>
#include <vector>

#include <polyclipping/clipper.hpp>

#include "engine/field/plane.h"

namespace acre::engine {

// Clipper works in whole numbers; a tenth of a millimetre is far below what a boundary is known to.
inline constexpr double clipper_unit = 1e-4;

inline ClipperLib::Path to_clipper(const PlaneRing& ring) {
    ClipperLib::Path path;
    path.reserve(ring.size());
    for (const Point& point : ring)
        path.emplace_back(std::llround(point.x / clipper_unit),
                          std::llround(point.y / clipper_unit));
    return path;
}
inline PlaneRing from_clipper(const ClipperLib::Path& path) {
    PlaneRing ring;
    ring.reserve(path.size());
    for (const ClipperLib::IntPoint& point : path)
        ring.push_back({static_cast<double>(point.X) * clipper_unit,
                        static_cast<double>(point.Y) * clipper_unit});
    return ring;
}
inline void collect(const ClipperLib::PolyNode& node, std::uint32_t block,
                    std::vector<PlanePolygon>& polygons) {
    for (const ClipperLib::PolyNode* outer : node.Childs) {
        PlanePolygon polygon{from_clipper(outer->Contour), {}, block};
        for (const ClipperLib::PolyNode* hole : outer->Childs)
            polygon.holes.push_back(from_clipper(hole->Contour));
        polygons.push_back(std::move(polygon));
        for (const ClipperLib::PolyNode* hole : outer->Childs)
            collect(*hole, block, polygons);
    }
}

} // namespace acre::engine
