// The days of a job, one by one: what is done on each, and which are closed.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/dates.h"
#include "engine/questions/price.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct DayRow {
    std::string date;
    int weekday = 0;               // 0: Sunday
    std::string closed;            // why; empty: it is open
    std::vector<std::size_t> work; // into the stages
};

struct CalendarQuestion {};

struct CalendarAnswer {
    JobHead job;
    DatesAnswer dates;
    std::vector<DayRow> days; // from start to finish, a run of waiting cut to its ends
    // The year of the last day, if the season names closed days of earlier years and none of it.
    std::optional<long> unlisted_year;
};

// What stops a price stops it too. I603: the job has no date, or no line that says its days. Q006:
// more days than the limit.
lang::Outcome<CalendarAnswer> ask(const PricedJob& job, const CalendarQuestion& question);

} // namespace acre::engine
