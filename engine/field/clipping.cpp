#include "engine/field/clipping.h"

#include "engine/field/clipper_paths.h"

namespace acre::engine {
namespace {

void add(ClipperLib::Clipper& clipper, const std::vector<PlanePolygon>& polygons,
         ClipperLib::PolyType type) {
    for (const PlanePolygon& polygon : polygons) {
        clipper.AddPath(to_clipper(polygon.outer), type, true);
        for (const PlaneRing& hole : polygon.holes)
            clipper.AddPath(to_clipper(hole), type, true);
    }
}

std::vector<PlanePolygon> clipped(ClipperLib::ClipType how, const std::vector<PlanePolygon>& a,
                                  const std::vector<PlanePolygon>& b, std::uint32_t block) {
    ClipperLib::Clipper clipper;
    add(clipper, a, ClipperLib::ptSubject);
    add(clipper, b, ClipperLib::ptClip);
    ClipperLib::PolyTree tree;
    clipper.Execute(how, tree, ClipperLib::pftEvenOdd, ClipperLib::pftNonZero);
    std::vector<PlanePolygon> result;
    collect(tree, block, result);
    return result;
}

} // namespace

std::size_t points_of(const std::vector<PlanePolygon>& polygons) {
    std::size_t points = 0;
    for (const PlanePolygon& polygon : polygons) {
        points += polygon.outer.size();
        for (const PlaneRing& hole : polygon.holes)
            points += hole.size();
    }
    return points;
}

std::vector<PlanePolygon> common_ground(const std::vector<PlanePolygon>& a,
                                        const std::vector<PlanePolygon>& b, std::uint32_t block) {
    return clipped(ClipperLib::ctIntersection, a, b, block);
}
std::vector<PlanePolygon> ground_without(const std::vector<PlanePolygon>& a,
                                         const std::vector<PlanePolygon>& b, std::uint32_t block) {
    return clipped(ClipperLib::ctDifference, a, b, block);
}

} // namespace acre::engine
