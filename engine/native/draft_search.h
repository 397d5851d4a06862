// The critical depth of a shank: where, of the depths `depth × i / 400` and the bottoms of layers,
// its draft is least.
#pragma once

#include <limits>

#include "engine/native/shank_physics.h"

namespace acre::engine::shank {

inline constexpr int grid_steps = 400;

struct Least {
    double draft = std::numeric_limits<double>::quiet_NaN(); // none: not a number
    double critical_depth = std::numeric_limits<double>::quiet_NaN();
    int grid = -1; // depth × grid / 400; -1: the bottom of a layer
};

// The depth of `ground` is above zero.
Least least_draft(const Ground<double>& ground);

} // namespace acre::engine::shank
