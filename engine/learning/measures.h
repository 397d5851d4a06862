// What a job's log measures of its readings.
#pragma once

#include <vector>

#include "engine/job/work_calendar.h"
#include "engine/learning/readings.h"
#include "engine/log/job_log.h"

namespace acre::engine {

struct Measure {
    bool known = false; // the log has it
    double value = 0;   // in the unit of the reading
    double error = 0;   // of its logarithm, from how much the days differ
    double hours = 0;   // on the meters
    // Days: those between the first and the last on which the firm was open, and of these the days
    // without work. Breaks: how many.
    double trials = 0, count = 0;
};

// By reading. A day's figures say how sure a pace or burn is; a single day is taken to be known to
// a tenth. A breakage is a row whose cause of down time is called as the event is, by its name or
// its label ("broken shank", "broken shanks").
std::vector<Measure> measures_of(const JobLog& log, const JobReadings& readings,
                                 const WorkCalendar& calendar);

} // namespace acre::engine
