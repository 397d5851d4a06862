// What finished jobs made together: each against its quote, and where their costs went. A sum of
// what variance says of each, no other way of reckoning.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "engine/questions/variance.h"

namespace acre::engine {

// A cost of all jobs that have it, by what people call it: the diesel of every machine is diesel.
struct CostOfJobs {
    std::string label;
    std::size_t jobs = 0;
    double quoted = 0, actual = 0;
    double by_quantity = 0, by_rate = 0; // add up to actual - quoted
};

struct ResultsAnswer {
    std::vector<VarianceAnswer> jobs; // least profit first
    std::vector<CostOfJobs> costs;    // most over first
    double by_hours = 0, by_burn = 0, by_fuel_price = 0;
    double price = 0, income = 0, overhead = 0;
    double quoted_cost = 0, actual_cost = 0;
    double as_quoted = 0; // of the actual cost, what no log says anything of
    std::size_t losses = 0;

    double quoted_profit() const { return price - quoted_cost - overhead; }
    double actual_profit() const { return income - actual_cost - overhead; }
};

ResultsAnswer results(std::vector<VarianceAnswer> jobs);

} // namespace acre::engine
