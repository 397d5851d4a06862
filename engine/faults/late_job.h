// A job that is not done by its latest date, and one whose week is not that of its season.
#pragma once

#include "engine/job/priced_job.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

// Warns with L833 and L834 of a job that has a date.
void warn_of_dates(const PricedJob& job, lang::Diagnostics& diagnostics);

// The line `days_per_week` of the job's own model, else of a model that it uses; none: neither has
// one.
lang::LineId days_per_week_of(const lang::Sheet& sheet);

} // namespace acre::engine
