// Poison at its origin: the operations without an answer whose operands all had one.
#pragma once

#include <span>

#include "engine/faults/fault_trail.h"
#include "engine/job/priced_job.h"
#include "engine/plan/compile_plan.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

struct Asked {
    std::span<const char> lines, slots; // one byte each
};

// Reports E501 E502 E503 E505 E506, one for each origin that is asked for. `skip_prices`: the lines
// of prices are at fault for a reason that was told already.
void report_origins(const PricedJob& job, const FaultTrail& trail, Asked asked, bool skip_prices,
                    lang::Diagnostics& diagnostics);

} // namespace acre::engine
