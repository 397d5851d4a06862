#include "engine/questions/season/season.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace acre::engine {
namespace {

// A hired machine comes for each job and is paid by it: nobody waits for it, and no year of it is
// the firm's to cover.
std::vector<SeasonMachine> hired_of(std::vector<SeasonMachine>& machines,
                                    std::vector<SeasonJob>& jobs,
                                    const std::map<std::string, Owned>& fleet) {
    std::vector<SeasonMachine> hired;
    std::erase_if(machines, [&](const SeasonMachine& machine) {
        if (owned_of(fleet, machine.name).count > 0)
            return false;
        hired.push_back(machine);
        return true;
    });
    for (SeasonJob& job : jobs)
        std::erase_if(job.uses, [&](const MachineUse& use) {
            if (owned_of(fleet, use.machine).count > 0)
                return false;
            job.fixed -= use.fixed;
            return true;
        });
    return hired;
}

} // namespace

Season season(std::vector<SeasonJob> jobs, std::vector<SeasonMachine> machines,
              const SeasonQuestion& question) {
    Season result;
    result.fleet = question.fleet;
    result.hired = hired_of(machines, jobs, question.fleet);
    for (SeasonJob& job : jobs)
        job.dated = place(job, job.earliest);
    std::stable_sort(jobs.begin(), jobs.end(), [](const SeasonJob& a, const SeasonJob& b) {
        return a.dated.start < b.dated.start;
    });
    std::vector<JobPlace> places;
    long until = question.until.value_or(0);
    for (const SeasonJob& job : jobs) {
        places.push_back(job.dated);
        if (!question.until)
            until = std::max(places.size() == 1 ? job.dated.finish : until, job.dated.finish);
    }
    result.units = assign_units(jobs, places, question.fleet);
    result.machines = machine_rows(jobs, places, machines, question.fleet, result.units);
    result.months = month_rows(jobs, places, question.net_days);
    result.clashes = find_clashes(jobs, places, question.fleet);
    result.doubles = find_doubles(jobs);
    result.sums = sums_of(jobs);
    result.cover = cover(result.sums, result.machines, question.overhead);
    result.plan = plan_jobs(jobs, question.fleet, until);
    if (result.plan)
        result.plan->all_by = day_all_are_done(jobs, question.fleet, *result.plan);
    const auto another =
        std::find_if(machines.begin(), machines.end(), [&](const SeasonMachine& machine) {
            return machine.name == question.another;
        });
    if (another != machines.end() && result.plan)
        result.another = one_more(jobs, *another, question.fleet, *result.plan);
    for (std::size_t i = 0; i < jobs.size(); ++i)
        result.by_day_pay.push_back(i);
    std::stable_sort(result.by_day_pay.begin(), result.by_day_pay.end(),
                     [&](std::size_t a, std::size_t b) {
                         return jobs[a].profit_a_day() < jobs[b].profit_a_day();
                     });
    result.jobs = std::move(jobs);
    return result;
}

} // namespace acre::engine
