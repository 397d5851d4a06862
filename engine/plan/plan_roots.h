// Where answers begin, and what a job must set before there are any.
#pragma once

#include <span>
#include <vector>

#include "engine/plan/compile_plan.h"
#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

// The lines an answer is made of: `roots`; if these are empty costs, prices and totals, or every
// line if the model has no price.
std::vector<lang::LineId> root_lines(const lang::Sheet& sheet, std::span<const lang::LineId> roots);

// Their slots, and if `roots` are empty those of all requirements.
std::vector<Slot> root_slots(const lang::Sheet& sheet, const Compiled& compiled,
                             std::span<const lang::LineId> roots);

// The slot of a line, also of a given without a value (a poisoned one).
Slot slot_of(const Compiled& compiled, lang::LineId line);

// Reports I603, once, with every given that has no value and is asked for. `asked`: by slot.
void report_unset_givens(const lang::Sheet& sheet, const Compiled& compiled,
                         const lang::SourceMap& sources, std::span<const char> asked,
                         lang::Diagnostics& diagnostics);

} // namespace acre::engine
