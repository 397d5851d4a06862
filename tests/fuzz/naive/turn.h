// The shortest way between two poses for a machine that turns no tighter than its circle, by the
// circles beside both poses and the lines that touch them. Nothing of the engine is in it.
#pragma once

#include "tests/fuzz/naive/ground.h"

namespace acre::fuzz::naive {

// Angles counter-clockwise from x.
double way_around(Spot from, double from_angle, Spot to, double to_angle, double radius);

} // namespace acre::fuzz::naive
