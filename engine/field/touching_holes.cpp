#include "engine/field/touching_holes.h"

#include <utility>

#include "engine/field/clipping.h"
#include "engine/field/fences.h"

namespace acre::engine {

std::optional<std::vector<PlanePolygon>> taken_off(const std::vector<PlanePolygon>& block) {
    if (points_of(block) > most_clipped_points)
        return std::nullopt;
    std::vector<PlanePolygon> rest;
    for (const PlanePolygon& polygon : block) {
        const std::vector<PlanePolygon> outer{{polygon.outer, {}, polygon.block}};
        std::vector<PlanePolygon> holes;
        for (const PlaneRing& hole : polygon.holes)
            holes.push_back({hole, {}, polygon.block});
        if (widest_strip(ground_without(holes, outer, polygon.block)) > widest_fence_overlap)
            return std::nullopt;
        for (PlanePolygon& piece : ground_without(outer, holes, polygon.block))
            rest.push_back(std::move(piece));
    }
    return rest;
}

} // namespace acre::engine
