#include "engine/questions/season/season_plan.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <set>
#include <tuple>
#include <utility>

#include "engine/questions/season/yard.h"

namespace acre::engine {
namespace {

// Jobs that may stand in each other's way, in groups: one that finds its own first place free of
// all others needs no order. A group whose places reach into another's joins it.
class JobGroups {
  public:
    explicit JobGroups(const std::vector<SeasonJob>& jobs) : jobs_(jobs), of_(jobs.size()) {
        std::iota(of_.begin(), of_.end(), std::size_t{0});
    }

    std::size_t of(std::size_t job) {
        while (of_[job] != job)
            job = of_[job] = of_[of_[job]];
        return job;
    }
    // Whether any two groups were joined.
    bool join(const PlanPlaces& places, const std::map<std::string, Owned>& fleet) {
        std::vector<JobPlace> at(jobs_.size());
        for (std::size_t i = 0; i < jobs_.size(); ++i) {
            at[i] = places[i].value_or(JobPlace{});
            at[i].held.resize(jobs_[i].uses.size());
        }
        bool joined = false;
        for (const Clash& clash : clashes(at, fleet))
            if (const std::size_t a = of(clash.first), b = of(clash.second); a != b) {
                of_[std::max(a, b)] = std::min(a, b);
                joined = true;
            }
        return joined;
    }

  private:
    struct Clash {
        std::size_t first, second;
    };
    struct Stay {
        long first, last;
        std::size_t job;
        int units;
    };
    const std::vector<SeasonJob>& jobs_;
    std::vector<std::size_t> of_;

    // Jobs that are out together on a day on which too much is wanted: each with the one before it.
    std::vector<Clash> clashes(const std::vector<JobPlace>& at,
                               const std::map<std::string, Owned>& fleet) const {
        std::map<std::string, std::vector<Stay>> stays;
        for (std::size_t i = 0; i < jobs_.size(); ++i)
            for (std::size_t u = 0; u < jobs_[i].uses.size(); ++u)
                for (const DaySpan& days : at[i].held[u])
                    stays[jobs_[i].uses[u].machine].push_back(
                        {days.first, days.last, i, jobs_[i].uses[u].units});
        std::vector<Clash> found;
        for (auto& [machine, of] : stays) {
            std::stable_sort(of.begin(), of.end(),
                             [](const Stay& a, const Stay& b) { return a.first < b.first; });
            const int owned = owned_of(fleet, machine).count;
            std::vector<Stay> out;
            for (const Stay& stay : of) {
                std::erase_if(out, [&](const Stay& other) { return other.last < stay.first; });
                int wanted = stay.units;
                for (const Stay& other : out)
                    wanted += other.units;
                if (wanted > owned)
                    for (const Stay& other : out)
                        if (other.job != stay.job)
                            found.push_back({other.job, stay.job});
                out.push_back(stay);
            }
        }
        return found;
    }
};

} // namespace

void put_places(const std::vector<SeasonJob>& jobs, const PlanPlaces& places, SeasonPlan& plan) {
    for (std::size_t i = 0; i < jobs.size(); ++i) {
        PlannedJob& job = plan.jobs.emplace_back();
        job.fits = places[i].has_value();
        job.at = places[i].value_or(jobs[i].dated);
        if (!job.fits) {
            ++plan.left_out;
            plan.lost += jobs[i].chance * jobs[i].left();
            continue;
        }
        job.moved = job.at.start - jobs[i].dated.start;
        plan.days_moved += job.moved;
        plan.moved += job.moved > 0 ? 1 : 0;
    }
}

std::optional<SeasonPlan> plan_jobs(const std::vector<SeasonJob>& jobs,
                                    const std::map<std::string, Owned>& fleet, long until) {
    if (jobs.size() > max_planned_jobs)
        return std::nullopt;
    SeasonPlan plan;
    plan.last_day = until;
    long first = until, last = until;
    std::vector<long> latest;
    for (const SeasonJob& job : jobs) {
        first = std::min(first, job.earliest);
        latest.push_back(job.latest.value_or(until));
        last = std::max(last, latest.back());
    }
    if (last - first > max_plan_days)
        return std::nullopt;
    Yard yard(jobs, fleet, first, last);
    PlanPlaces places(jobs.size());
    for (std::size_t i = 0; i < jobs.size(); ++i)
        places[i] = yard.first_place(i, latest[i]);
    JobGroups groups(jobs);
    std::map<std::size_t, std::size_t> solved; // size by group: groups only grow
    std::map<std::size_t, bool> proved;
    while (groups.join(places, fleet)) {
        std::map<std::size_t, std::vector<std::size_t>> members;
        for (std::size_t i = 0; i < jobs.size(); ++i)
            members[groups.of(i)].push_back(i);
        for (const auto& [group, of] : members) {
            if (of.size() < 2 || solved[group] == of.size())
                continue;
            solved[group] = of.size();
            for (const std::size_t job : of) {
                places[job].reset();
                proved.erase(job);
            }
            proved[group] = OrderSearch(jobs, latest, yard, max_plan_trials).run(of, places);
        }
    }
    if (yard.is_worn_out())
        return std::nullopt;
    plan.proved = std::all_of(proved.begin(), proved.end(), [](auto& each) { return each.second; });
    plan.trials = yard.trials();
    put_places(jobs, places, plan);
    std::vector<JobPlace> at;
    for (std::size_t i = 0; i < jobs.size(); ++i) {
        at.push_back(plan.jobs[i].at);
        if (!plan.jobs[i].fits)
            at.back().held.assign(jobs[i].uses.size(), {});
    }
    plan.units = assign_units(jobs, at, fleet);
    return plan;
}

std::optional<long> day_all_are_done(const std::vector<SeasonJob>& jobs,
                                     const std::map<std::string, Owned>& fleet,
                                     const SeasonPlan& plan) {
    constexpr long more_days = 366;
    const auto left_out = [&](const SeasonPlan& of, bool dated) {
        std::size_t count = 0;
        for (std::size_t i = 0; i < jobs.size(); ++i)
            count += !of.jobs[i].fits && jobs[i].latest.has_value() == dated ? 1 : 0;
        return count;
    };
    if (left_out(plan, false) == 0)
        return std::nullopt;
    const std::optional<SeasonPlan> longer = plan_jobs(jobs, fleet, plan.last_day + more_days);
    if (!longer || left_out(*longer, false) > 0 || left_out(*longer, true) > left_out(plan, true))
        return std::nullopt;
    long last = plan.last_day;
    for (std::size_t i = 0; i < jobs.size(); ++i)
        if (!jobs[i].latest)
            last = std::max(last, longer->jobs[i].at.finish);
    return last;
}

} // namespace acre::engine
