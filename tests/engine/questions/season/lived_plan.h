// The plan of a season against every order of its jobs, each put where it goes by living through it
// day by day.
#pragma once

#include <algorithm>
#include <numeric>
#include <optional>

#include "tests/engine/questions/season/lived_season.h"

namespace acre::tests {

// A place for each job in an order of them: the first day on which all its machines are free.
class Tried {
  public:
    Tried(const Drawn& drawn, long until) : drawn_(drawn), until_(until) {}

    std::pair<double, long> loss(const std::vector<std::size_t>& order) {
        std::map<std::pair<std::string, long>, int> out;
        double money = 0;
        long days = 0;
        for (const std::size_t i : order) {
            const LivedJob& job = drawn_.jobs[i];
            const long latest = job.has_latest ? job.latest : until_;
            const long dated = drawn_.lived.live(job, job.from).begin()->first;
            bool found = false;
            for (long from = job.from; from <= latest && !found; ++from) {
                const Placed& lived = placed(i, from);
                if (lived.last > latest)
                    break;
                if (!is_free(job, lived, out))
                    continue;
                found = true;
                days += lived.first - dated;
                for (std::size_t u = 0; u < job.uses.size(); ++u)
                    for (const long day : lived.held[u])
                        out[{job.uses[u].machine, day}] += job.uses[u].units;
            }
            if (!found)
                money += std::max(0.0, job.chance * job.left());
        }
        return {money, days};
    }

  private:
    struct Placed {
        long first = 0, last = 0;
        std::vector<std::set<long>> held; // by use
    };
    const Placed& placed(std::size_t i, long from) {
        const auto [at, added] = placed_.try_emplace({i, from});
        if (added) {
            const LivedDays days = drawn_.lived.live(drawn_.jobs[i], from);
            at->second = {days.begin()->first, days.rbegin()->first, {}};
            for (const LivedUse& use : drawn_.jobs[i].uses)
                at->second.held.push_back(Lived::held(days, use));
        }
        return at->second;
    }
    bool is_free(const LivedJob& job, const Placed& lived,
                 std::map<std::pair<std::string, long>, int>& out) const {
        for (std::size_t u = 0; u < job.uses.size(); ++u)
            for (const long day : lived.held[u])
                if (out[{job.uses[u].machine, day}] + job.uses[u].units >
                    owned(drawn_, job.uses[u].machine))
                    return false;
        return true;
    }
    const Drawn& drawn_;
    long until_;
    std::map<std::pair<std::size_t, long>, Placed> placed_;
};

// Whether the plan keeps the dates and leaves enough of the machines on each day.
inline void hold_plan(const Drawn& drawn, const Season& season, Amiss& amiss) {
    std::map<std::pair<std::string, long>, int> out;
    for (std::size_t i = 0; i < drawn.jobs.size(); ++i) {
        const PlannedJob& planned = season.plan->jobs[told_of(season, i)];
        if (!planned.fits)
            continue;
        const LivedJob& job = drawn.jobs[i];
        const LivedDays lived = drawn.lived.live(job, planned.at.start);
        amiss.unless(planned.at.start >= job.from, "a job planned before it may begin");
        amiss.unless(planned.at.start == lived.begin()->first, "first day of a planned job");
        amiss.unless(planned.at.finish == lived.rbegin()->first, "last day of a planned job");
        amiss.unless(planned.at.finish <= (job.has_latest ? job.latest : season.plan->last_day),
                     "a job planned past its latest day");
        for (const LivedUse& use : job.uses)
            for (const long day : Lived::held(lived, use))
                amiss.unless((out[{use.machine, day}] += use.units) <= owned(drawn, use.machine),
                             "a machine planned twice");
    }
}

// Each job that fits has as many units as it wants, none of them on another job that day; one that
// does not fit has none.
inline void hold_units_of_plan(const Drawn& drawn, const Season& season, Amiss& amiss) {
    std::set<std::tuple<std::string, std::size_t, long>> taken; // machine, unit, day
    for (std::size_t i = 0; i < drawn.jobs.size(); ++i) {
        const LivedJob& job = drawn.jobs[i];
        const PlannedJob& planned = season.plan->jobs[told_of(season, i)];
        std::vector<std::map<long, int>> units(job.uses.size()); // by use, by day
        for (const UnitStay& stay : season.plan->units[told_of(season, i)])
            for (const std::size_t unit : stay.units)
                for (long day = stay.days.first; day <= stay.days.last; ++day) {
                    const std::string& machine = job.uses[stay.use].machine;
                    ++units[stay.use][day];
                    amiss.unless(taken.emplace(machine, unit, day).second, "a unit planned twice");
                    amiss.unless(static_cast<int>(unit) < owned(drawn, machine),
                                 "a unit that is not there");
                }
        const LivedDays lived = drawn.lived.live(job, planned.at.start);
        for (std::size_t u = 0; u < job.uses.size(); ++u) {
            std::map<long, int> wanted;
            if (planned.fits)
                for (const long day : Lived::held(lived, job.uses[u]))
                    wanted[day] = job.uses[u].units;
            amiss.unless(units[u] == wanted, "units of a planned job");
        }
    }
}

// What the plan says of itself.
inline void hold_sums_of_plan(const Drawn& drawn, const Season& season, Amiss& amiss) {
    std::size_t left_out = 0, moved = 0;
    double lost = 0;
    for (std::size_t i = 0; i < drawn.jobs.size(); ++i) {
        const LivedJob& job = drawn.jobs[i];
        const PlannedJob& planned = season.plan->jobs[told_of(season, i)];
        const long dated = drawn.lived.live(job, job.from).begin()->first;
        left_out += planned.fits ? 0 : 1;
        lost += planned.fits ? 0 : job.chance * job.left();
        const long later = planned.fits ? planned.at.start - dated : 0;
        moved += later > 0 ? 1 : 0;
        amiss.unless(planned.moved == later, "how far a job is moved");
        amiss.unless(planned.fits || planned.at.start == dated, "the dates of one left out");
    }
    amiss.unless(season.plan->left_out == left_out, "how many are left out");
    amiss.unless(season.plan->moved == moved, "how many are moved");
    amiss.unless_near(season.plan->lost, lost, "what those left out would leave");
}

// No order of the jobs loses less. `drawn.question` says until when.
inline std::string amiss_in_plan(const Drawn& drawn, const Season& season) {
    Amiss amiss;
    if (!season.plan || !season.plan->proved)
        return "no plan of few jobs";
    hold_plan(drawn, season, amiss);
    hold_units_of_plan(drawn, season, amiss);
    hold_sums_of_plan(drawn, season, amiss);
    std::vector<std::size_t> order(drawn.jobs.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    Tried tried(drawn, *drawn.question.until);
    std::optional<std::pair<double, long>> best;
    do {
        const std::pair<double, long> loss = tried.loss(order);
        if (!best || loss.first < best->first - 0.005 ||
            (loss.first < best->first + 0.005 && loss.second < best->second))
            best = loss;
    } while (std::next_permutation(order.begin(), order.end()));
    double lost = 0;
    for (std::size_t i = 0; i < season.jobs.size(); ++i)
        if (!season.plan->jobs[i].fits)
            lost += std::max(0.0, season.jobs[i].chance * season.jobs[i].left());
    amiss.unless_near(lost, best->first, "what the plan loses");
    amiss.unless(season.plan->days_moved == best->second, "days that the plan moves jobs");
    return amiss.text();
}

} // namespace acre::tests
