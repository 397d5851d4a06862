// When a job starts and is done. Dates are text as files write them: 2027-06-21.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"

namespace acre::engine {

struct StageRow { // what is done from a day to a day
    std::string label;
    bool waits = false; // nothing is done: days pass
    double days = 0;    // of work, or to wait
    std::string first, last;
    // Where its first day has a latest time to begin: hours after midnight, the same as people say
    // it, what it is called, and the open day to which it moves when it is missed.
    std::optional<double> begin_by;
    std::string begin_by_text, begin_by_label, else_on;
};

struct DatesAnswer {
    std::string earliest, start, finish;
    std::string latest; // empty: the job says none
    bool late = false;  // done after that
    double work_days = 0;
    long calendar_days = 0; // from start to finish, both counted
    long closed_days = 0;   // of them
    std::vector<StageRow> stages;
};

// Empty: the job has no date, or no days that can be counted.
std::optional<DatesAnswer> dates_of(const PricedJob& job);

} // namespace acre::engine
