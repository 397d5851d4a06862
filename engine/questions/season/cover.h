// What covers the firm's year: the fixed cost of every machine it owns, and the office, against
// what the jobs leave for them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/questions/season/fleet.h"
#include "engine/questions/season/months.h"

namespace acre::engine {

struct Cover {
    double fixed = 0;    // of all machines owned, a year, $
    double overhead = 0; // the office, a year, $
    bool carried = true; // the overhead is what the jobs carry: nobody said what the office costs
    double left = 0;     // price less direct cost, without the fixed cost of machines in it
    // At the same mix of jobs: what the year must bring. 0: nothing is left, so nothing does.
    double price = 0, acres = 0;
    std::string machine; // the one with most hours; empty: no hours are booked
    double hours = 0;    // of it

    double need() const { return fixed + overhead; }
    double share() const { return need() > 0 ? left / need() : 1; } // of the need that is covered
    double over() const { return left - need(); }                   // below zero: short
};

struct SeasonSums { // offers by their chance
    double price = 0, cost = 0, overhead = 0, fixed_charged = 0, acres = 0;

    double contribution() const { return price - cost; }
    double profit() const { return price - cost - overhead; }
};

SeasonSums sums_of(const std::vector<SeasonJob>& jobs);

// `overhead`: of the office for a year, if somebody said it.
Cover cover(const SeasonSums& sums, const std::vector<MachineRow>& machines,
            std::optional<double> overhead);

} // namespace acre::engine
