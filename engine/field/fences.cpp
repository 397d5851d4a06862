#include "engine/field/fences.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <utility>

#include "engine/field/clipping.h"
#include "engine/field/extent.h"

namespace acre::engine {
namespace {

struct Block {
    std::uint32_t number;
    Extent extent;
    std::vector<PlanePolygon> ground;
};

std::vector<Block> blocks_of(const std::vector<PlanePolygon>& polygons) {
    std::map<std::uint32_t, Block> blocks;
    for (const PlanePolygon& polygon : polygons) {
        Block& block = blocks[polygon.block];
        block.number = polygon.block;
        block.extent.add(polygon.outer);
        block.ground.push_back(polygon);
    }
    std::vector<Block> result;
    for (auto& [number, block] : blocks)
        result.push_back(std::move(block));
    return result;
}

// The block around the other one is the first.
Fences::Doubled doubled(const Block& earlier, const Block& later, double both) {
    constexpr double nearly_all = 0.98; // a yard drawn a bit over the fence is still one within
    const bool later_is = both > nearly_all * plane_area(later.ground);
    const bool earlier_is = both > nearly_all * plane_area(earlier.ground);
    if (earlier_is && !later_is)
        return {later.number, earlier.number, true};
    return {earlier.number, later.number, later_is && !earlier_is};
}

} // namespace

double widest_strip(const std::vector<PlanePolygon>& strips) {
    double wide = 0;
    for (const PlanePolygon& strip : strips) {
        double edge = 0;
        for (std::size_t i = 0, n = strip.outer.size(); i < n; ++i) {
            const Point& a = strip.outer[i];
            const Point& b = strip.outer[i + 1 == n ? 0 : i + 1];
            edge += std::hypot(b.x - a.x, b.y - a.y);
        }
        wide = std::max(wide, 2 * plane_area({strip}) / edge);
    }
    return wide;
}

Fences part_blocks(std::vector<PlanePolygon>& polygons) {
    constexpr double nothing = 1e-3; // m; rounding of a fence that both have
    Fences fences;
    std::vector<Block> blocks = blocks_of(polygons);
    std::size_t pairs = 0;
    for (std::size_t i = 1; i < blocks.size(); ++i)
        for (std::size_t k = 0; k < i; ++k) {
            Block& later = blocks[i];
            const Block& earlier = blocks[k];
            if (!later.extent.meets(earlier.extent))
                continue;
            if (++pairs > most_block_pairs ||
                points_of(later.ground) + points_of(earlier.ground) > most_clipped_points) {
                fences.too_many = true;
                return fences;
            }
            const std::vector<PlanePolygon> both =
                common_ground(later.ground, earlier.ground, later.number);
            const double wide = widest_strip(both);
            if (wide > widest_fence_overlap) {
                fences.doubled = doubled(earlier, later, plane_area(both));
                return fences;
            }
            if (wide < nothing)
                continue;
            fences.given += plane_area(both);
            later.ground = ground_without(later.ground, earlier.ground, later.number);
        }
    polygons.clear();
    for (Block& block : blocks)
        std::move(block.ground.begin(), block.ground.end(), std::back_inserter(polygons));
    return fences;
}

} // namespace acre::engine
