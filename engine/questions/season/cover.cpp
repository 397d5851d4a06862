#include "engine/questions/season/cover.h"

namespace acre::engine {

SeasonSums sums_of(const std::vector<SeasonJob>& jobs) {
    SeasonSums sums;
    for (const SeasonJob& job : jobs) {
        sums.price += job.chance * job.price;
        sums.cost += job.chance * job.cost;
        sums.overhead += job.chance * job.overhead;
        sums.fixed_charged += job.chance * job.fixed;
        sums.acres += job.chance * job.acres;
    }
    return sums;
}

Cover cover(const SeasonSums& sums, const std::vector<MachineRow>& machines,
            std::optional<double> overhead) {
    Cover result;
    for (const MachineRow& row : machines)
        result.fixed += row.fixed;
    result.carried = !overhead;
    result.overhead = overhead.value_or(sums.overhead);
    result.left = sums.contribution() + sums.fixed_charged;
    if (result.left <= 0)
        return result;
    const double times = result.need() / result.left;
    result.price = sums.price * times;
    result.acres = sums.acres * times;
    if (!machines.empty() && machines.front().booked > 0) {
        result.machine = machines.front().machine.name;
        result.hours = machines.front().booked * times;
    }
    return result;
}

} // namespace acre::engine
