// Does one more of a machine pay? The season with it and without it.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/questions/season/season_plan.h"

namespace acre::engine {

struct OneMore {
    std::string machine;
    int owned = 1;
    bool answered = false;            // else the plan is past its limits
    bool proved = true;               // both plans
    std::vector<std::size_t> fit_now; // jobs that fit with it alone
    std::vector<std::size_t> never;   // jobs that do not fit even then
    double gained = 0;                // what those leave for machines and office, $
    long days_moved_without = 0, days_moved_with = 0;
    double fixed = 0; // a year of it, $
    // Acres of jobs that use the machine at which what they leave pays its year; 0: they leave
    // nothing, or have no acres.
    double acres = 0, left_per_acre = 0;

    double net() const { return gained - fixed; }
};

// `machine` is one of the machines; `without`: the plan of the fleet as it is.
OneMore one_more(const std::vector<SeasonJob>& jobs, const SeasonMachine& machine,
                 const std::map<std::string, Owned>& fleet, const SeasonPlan& without);

} // namespace acre::engine
