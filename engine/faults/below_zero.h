// Values below zero that have no sense there: money, hours, acres, quantities, rates.
#pragma once

#include <span>

#include "engine/faults/fault_trail.h"
#include "engine/job/priced_job.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

// Reports E509 for each line below zero that must not be (plan/not_negative.h), where it began:
// not for lines that rest on one told already. `asked`: by line; empty: every line. True if there
// was one.
bool report_below_zero(const PricedJob& job, const FaultTrail& trail, std::span<const char> asked,
                       lang::Diagnostics& diagnostics);

} // namespace acre::engine
