// All the places in a range at which a curve reaches a value.
#pragma once

#include "engine/questions/what_if/break_even.h"
#include "engine/questions/what_if/curve.h"

namespace acre::engine {

// Fills everything of `result` that the curve decides: `range` and `wanted` are read. Refuses a
// line of too many steps of calculation.
bool find_crossings(const Curve& curve, const Compiled& compiled, BreakEven& result,
                    Refusal& refusal);

} // namespace acre::engine
