// Required values that are missing: givens without a value that an answer rests on.
#pragma once

#include <span>

#include "engine/job/priced_job.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

// Reports I603, once, with every given that has no value and is asked for. `asked`: by slot.
void report_unset_givens(const PricedJob& job, std::span<const char> asked,
                         lang::Diagnostics& diagnostics);

// The same of all answers of a job. Which givens these are depends on the branches taken.
void report_unset(const PricedJob& job, lang::Diagnostics& diagnostics);

// A required value is missing that some answer rests on.
bool lacks_values(const PricedJob& job);

} // namespace acre::engine
