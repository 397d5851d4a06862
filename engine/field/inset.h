// A field without the headland along its edges.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "engine/field/plane.h"

namespace acre::engine {

// A boundary of more points than this is shrunk step by step, so that fine teeth are gone before
// they are shifted across each other. Each step shrinks by its own distance at least, all together
// by the whole; only at notches sharper than 60 degrees the corners are cut otherwise.
inline constexpr std::size_t most_inset_at_once = 2'000;

// Edges that lie beside the heights of the boundary's points, over all points, and the square of
// their number: what a sweep over the field goes through. A few seconds.
inline constexpr double most_inset_effort = 150'000'000;

// Each block shrunk by `distance` metres from every edge; may fall into pieces or vanish. Empty:
// more than most_inset_effort.
std::optional<std::vector<PlanePolygon>> inset(const std::vector<PlanePolygon>& polygons,
                                               double distance);

} // namespace acre::engine
