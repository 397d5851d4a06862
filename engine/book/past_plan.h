// A quote for work that is planned for a day before it.
#pragma once

#include <optional>

#include "engine/job/priced_job.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

// L843: the last day of the job's plan is before `day`, that of its quote.
std::optional<lang::Diagnostic> planned_before(const PricedJob& job, long day);

} // namespace acre::engine
