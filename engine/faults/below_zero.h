// Values below zero that have no sense there: money, hours, acres, quantities, rates.
#pragma once

#include <span>

#include "engine/faults/fault_trail.h"
#include "engine/job/priced_job.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

// Reports E509 for each line below zero that must not be (plan/not_negative.h), where it began:
// not for lines that rest on one told already. `asked`: by line; empty: every line.
// `skip_prices`: the lines of prices are at fault for a reason that was told already.
void report_below_zero(const PricedJob& job, const FaultTrail& trail, std::span<const char> asked,
                       bool skip_prices, lang::Diagnostics& diagnostics);

} // namespace acre::engine
