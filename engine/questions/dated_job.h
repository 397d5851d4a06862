// A job in its season's calendar: what the answers of dates.h and calendar.h are made from.
#pragma once

#include <optional>
#include <vector>

#include "engine/job/job_dates.h"
#include "engine/job/priced_job.h"
#include "engine/questions/dates.h"

namespace acre::engine {

struct Dated {
    WorkCalendar calendar;
    std::vector<Stage> stages;
    std::optional<JobDates> dates; // none: no date, or none that can be counted
};

Dated dated(const PricedJob& job);
DatesAnswer answer_of(const Dated& from); // which has dates

} // namespace acre::engine
