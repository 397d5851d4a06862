// The jobs of the season so that no machine is wanted twice: each as early as its dates and the
// machines allow, in an order that loses least. A search among the orders that stops at a limit.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/questions/season/fleet.h"
#include "engine/questions/season/order_search.h"

namespace acre::engine {

inline constexpr std::size_t max_planned_jobs = 2'000;    // beyond them there is no plan
inline constexpr long max_plan_days = 3'660;              // from the first day to the last
inline constexpr std::uint64_t max_plan_trials = 200'000; // places tried, then the search stops

struct PlannedJob {
    JobPlace at;      // as dated where it does not fit
    bool fits = true; // done by its latest day, or by the last day of the season
    long moved = 0;   // days later than its dates have it
};

struct SeasonPlan {
    std::vector<PlannedJob> jobs; // in the order of the jobs
    UnitsOfJobs units;            // of those that fit
    bool proved = true;           // no order of jobs loses less, each as early as it goes
    std::uint64_t trials = 0;
    long last_day = 0;            // by which a job without a latest day must be done
    std::optional<long> all_by{}; // jobs without a latest day do not fit: the day until which
                                  // all of those are done, each early; none: not in a year more
    std::size_t left_out = 0, moved = 0;
    long days_moved = 0;
    double lost = 0;         // what the jobs left out would leave for machines and office
    bool by_roads = false;   // put into another order than the plan's own, to save moves
    long days_for_moves = 0; // that this order costs
};

// `until`: by which a job is done that says no latest day. `jobs` are dated. Empty: past the
// limits. `all_by` stays empty.
std::optional<SeasonPlan> plan_jobs(const std::vector<SeasonJob>& jobs,
                                    const std::map<std::string, Owned>& fleet, long until);

// What `all_by` of the plan is.
std::optional<long> day_all_are_done(const std::vector<SeasonJob>& jobs,
                                     const std::map<std::string, Owned>& fleet,
                                     const SeasonPlan& plan);

// Fills in the jobs of a plan and what they add up to, by where each stands.
void put_places(const std::vector<SeasonJob>& jobs, const PlanPlaces& places, SeasonPlan& plan);

} // namespace acre::engine
