// What went wrong on the way to the answers that were asked for.
#pragma once

#include <span>

#include "engine/job/priced_job.h"
#include "engine/plan/compile_plan.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

// Everything that stops an answer: poison at its origin with the givens that led there (E501 E502
// E503 E505 E506 E507 E508), givens outside `within` (I602), lines below zero that must not be
// (E509), requirements not met (E504); warnings L802, and those of the steps of prices
// (price_steps.h).
// `roots`: the lines asked for; empty: costs, prices and totals, or every line if the model has no
// price, and then every given is judged, whether or not a figure rests on it.
void report_faults(const PricedJob& job, std::span<const lang::LineId> roots,
                   lang::Diagnostics& diagnostics);

} // namespace acre::engine
