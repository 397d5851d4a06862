// Costs that no price covers, and costs that two cover.
#pragma once

#include "engine/job/priced_job.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

// Warns with L803 and L804 of a model with prices, each with the money it is about where that has
// an answer.
void warn_of_coverage(const PricedJob& job, lang::Diagnostics& diagnostics);

} // namespace acre::engine
