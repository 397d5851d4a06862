// A season of jobs against the machines: who is booked when, where a machine is wanted twice, how
// the jobs fit, what ownership costs at the hours really booked, what each month brings, and what
// covers the year.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/questions/season/clashes.h"
#include "engine/questions/season/cover.h"
#include "engine/questions/season/doubles.h"
#include "engine/questions/season/fleet.h"
#include "engine/questions/season/months.h"
#include "engine/questions/season/one_more.h"
#include "engine/questions/season/season_job.h"
#include "engine/questions/season/season_plan.h"

namespace acre::engine {

struct SeasonQuestion {
    std::map<std::string, Owned> fleet{}; // one of each where nothing is said; 0: it is hired
    long net_days = 20;                   // from the last day of a job to its payment
    std::optional<double> overhead{};     // of the office for a year, $; none: what the jobs carry
    std::optional<long> until{};          // the last day of the season; none: that of the last job
    std::string another{};                // the machine of which one more is asked for
};

struct Season {
    std::vector<SeasonJob> jobs;        // by start, dated
    std::vector<MachineRow> machines;   // most hours first
    std::map<std::string, Owned> fleet; // as asked
    std::vector<SeasonMachine> hired; // in no year of the firm: what they cost stays with the jobs
    std::vector<MonthRow> months;
    Clashes clashes;   // of the dates as given
    UnitsOfJobs units; // who is on which, as dated
    Doubles doubles;
    std::optional<SeasonPlan> plan; // none: past its limits
    std::optional<OneMore> another;
    std::vector<std::size_t> by_day_pay; // jobs, those with the least profit a day first
    SeasonSums sums;
    Cover cover;
};

Season season(std::vector<SeasonJob> jobs, std::vector<SeasonMachine> machines,
              const SeasonQuestion& question);

} // namespace acre::engine
