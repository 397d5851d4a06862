// All the places in a range at which a curve reaches a value.
#pragma once

#include "engine/questions/what_if/break_even.h"
#include "engine/questions/what_if/curve.h"

namespace acre::engine {

// Fills everything of `result` that the curve of the job decides: `value`, `range` and `wanted` are
// read. Q004 for a line of too many steps of calculation.
std::optional<lang::Diagnostic> find_crossings(const Curve& curve, const PricedJob& job,
                                               BreakEvenAnswer& result);

} // namespace acre::engine
