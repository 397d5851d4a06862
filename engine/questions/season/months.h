// The season month by month. A job's work, its direct cost and what it leaves fall evenly on its
// days of work; it is billed on its last day and paid for some days later.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "engine/questions/season/season_job.h"

namespace acre::engine {

struct MonthRow {
    int year = 0, month = 0;
    double job_days = 0, acres = 0, gallons = 0;
    double spent = 0;                      // direct cost of the work done
    double billed = 0;                     // jobs done in the month
    double received = 0;                   // paid by the growers in the month
    double left = 0;                       // by the work done, for machines and office
    double left_so_far = 0;                // with all months before
    std::map<std::string, double> hours{}; // by machine
};

// From the first to the last in which anything happens, without gaps. An offer counts by its
// chance. `net_days`: from the last day of a job to its payment.
std::vector<MonthRow> month_rows(const std::vector<SeasonJob>& jobs,
                                 const std::vector<JobPlace>& places, long net_days);

} // namespace acre::engine
