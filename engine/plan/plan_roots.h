// Where answers begin.
#pragma once

#include <span>
#include <vector>

#include "engine/plan/compile_plan.h"
#include "lang/check/sheet.h"

namespace acre::engine {

// The lines an answer is made of: `roots`; if these are empty costs, prices and totals, or every
// line if the model has no price.
std::vector<lang::LineId> root_lines(const lang::Sheet& sheet, std::span<const lang::LineId> roots);

// Their slots, and if `roots` are empty those of all requirements and what their
// refusal costs.
std::vector<Slot> root_slots(const lang::Sheet& sheet, const Compiled& compiled,
                             std::span<const lang::LineId> roots);

// The slot of a line, also of a given without a value (a poisoned one).
Slot slot_of(const Compiled& compiled, lang::LineId line);

} // namespace acre::engine
