// What two pieces of ground share, and what is left of one without the other.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/field/plane.h"

namespace acre::engine {

// More points than this of both together are not clipped.
inline constexpr std::size_t most_clipped_points = 40'000;

std::size_t points_of(const std::vector<PlanePolygon>& polygons);

// To a tenth of a millimetre. All polygons of the result are of `block`.
std::vector<PlanePolygon> common_ground(const std::vector<PlanePolygon>& a,
                                        const std::vector<PlanePolygon>& b, std::uint32_t block);
std::vector<PlanePolygon> ground_without(const std::vector<PlanePolygon>& a,
                                         const std::vector<PlanePolygon>& b, std::uint32_t block);

} // namespace acre::engine
