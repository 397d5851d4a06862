// The costs that run by the hour of the machine, fuel too.
#pragma once

#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/estimate.h"

namespace acre::engine {

// Those of the part with the largest cost over hours, of a machine whose meter is counted if there
// is one, for hands by the hour are several at once: every cost over hours in that part, and every
// one whose quantity goes with the hours of the largest (gallons = burn * hours).
struct HourlyCosts {
    double hours = 0, per_hour = 0; // h of the largest, $/h; hours 0: fewer than two such costs
    std::vector<std::size_t> costs; // into Estimate::costs
};

HourlyCosts hourly_costs(const PricedJob& job, const Estimate& estimate);

} // namespace acre::engine
