// Holes that are drawn up to the edge or to each other: a pump yard in a corner, a pond at a fence.
#pragma once

#include <optional>
#include <vector>

#include "engine/field/plane.h"

namespace acre::engine {

// The polygons of a block without the ground of their holes, edges that both have gone. Empty: a
// hole reaches over the edge by more than a fence is wide (engine/field/fences.h), the polygons
// themselves do not fit together, or they have more points than are clipped.
std::optional<std::vector<PlanePolygon>> taken_off(const std::vector<PlanePolygon>& block);

} // namespace acre::engine
