// The value reader: one job, every slot.
#pragma once

#include <span>
#include <vector>

#include "engine/plan/compile_plan.h"
#include "engine/plan/plan.h"

namespace acre::engine {

struct Values {
    std::vector<double> slot; // by slot; NaN is poison
};

// `inputs` by index of Plan::inputs; empty: the job's own values.
Values evaluate(const Plan& plan, std::span<const double> inputs = {});

// The slots that `roots` rest on, through the branches taken. One byte a slot.
std::vector<char> asked_for(const Plan& plan, const Values& values, std::span<const Slot> roots);

} // namespace acre::engine
