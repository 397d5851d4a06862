// How much work it is to look for edges that cross.
#pragma once

#include <vector>

#include "engine/field/plane.h"

namespace acre::engine {

// Past this a boundary is not checked, and so not laid out: a few seconds.
inline constexpr double most_box_pairs = 20'000'000;

// Pairs of edges whose upright boxes touch: what a check for crossings has to look at. In n log n.
double box_pairs(const std::vector<PlanePolygon>& polygons);

} // namespace acre::engine
