#include "engine/questions/season/one_more.h"

#include <algorithm>

namespace acre::engine {
namespace {

// Of the jobs that use it, by their chance.
double left_per_acre(const std::vector<SeasonJob>& jobs, const std::string& machine) {
    double left = 0, acres = 0;
    for (const SeasonJob& job : jobs)
        if (job.acres > 0 &&
            std::any_of(job.uses.begin(), job.uses.end(),
                        [&](const MachineUse& use) { return use.machine == machine; })) {
            left += job.chance * job.left();
            acres += job.chance * job.acres;
        }
    return acres > 0 ? left / acres : 0;
}

} // namespace

OneMore one_more(const std::vector<SeasonJob>& jobs, const SeasonMachine& machine,
                 const std::map<std::string, Owned>& fleet, const SeasonPlan& without) {
    OneMore more;
    more.machine = machine.name;
    Owned owned = owned_of(fleet, machine.name);
    more.owned = owned.count;
    more.fixed = machine.fixed_per_year;
    more.left_per_acre = left_per_acre(jobs, machine.name);
    if (more.left_per_acre > 0)
        more.acres = more.fixed / more.left_per_acre;
    ++owned.count;
    std::map<std::string, Owned> larger = fleet;
    larger[machine.name] = owned;
    const std::optional<SeasonPlan> with = plan_jobs(jobs, larger, without.last_day);
    if (!with)
        return more;
    more.answered = true;
    more.proved = without.proved && with->proved;
    more.days_moved_without = without.days_moved;
    more.days_moved_with = with->days_moved;
    for (std::size_t i = 0; i < jobs.size(); ++i)
        if (!with->jobs[i].fits)
            more.never.push_back(i);
        else if (!without.jobs[i].fits)
            more.fit_now.push_back(i);
    more.gained = without.lost - with->lost;
    return more;
}

} // namespace acre::engine
