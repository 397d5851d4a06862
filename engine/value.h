// The value reader: one job, every slot, and what went wrong on the way to the answers that were asked for.
#pragma once

#include <span>
#include <vector>

#include "engine/compile_plan.h"
#include "engine/plan.h"
#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

struct Values {
    std::vector<double> slot; // by slot; NaN is poison
};

// `inputs` by index of Plan::inputs; empty: the job's own values.
Values evaluate(const Plan& plan, std::span<const double> inputs = {});

// The slots that `roots` rest on, through the branches taken. One byte a slot.
std::vector<char> asked_for(const Plan& plan, const Values& values, std::span<const Slot> roots);

// Everything that stops an answer: poison at its origin with the givens that led there (E501 E502 E503 E505 E506 E507 E508),
// givens outside `within` (I602), requirements not met (E504); and L802. `roots`: the lines asked for; empty: costs, prices
// and totals, or every line if the model has no price.
void report_faults(const lang::CheckedSheet& sheet, const Compiled& compiled, const Values& values, const lang::SourceMap& sources,
                   std::span<const lang::LineId> roots, lang::Diagnostics& diagnostics);

} // namespace acre::engine
