// All slopes of one slot in one backward sweep.
#pragma once

#include <span>
#include <vector>

#include "engine/plan.h"
#include "engine/value.h"

namespace acre::engine {

// d(target)/d(input), by index of Plan::inputs, at the values given. At a kink the slope of the branch taken.
std::vector<double> slopes(const Plan& plan, const Values& values, Slot target);

} // namespace acre::engine
