// What a season comes to when it is lived through day by day, and where the program says otherwise.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <tuple>

#include "tests/engine/questions/season/drawn_seasons.h"

namespace acre::tests {

// What is not as it was lived, a line each; empty: nothing.
class Amiss {
  public:
    void unless(bool holds, std::string_view what) {
        if (!holds)
            text_.append(what).append("\n");
    }
    void unless_near(double a, double b, std::string_view what) {
        unless(std::fabs(a - b) <= 1e-7 * (1 + std::fabs(a) + std::fabs(b)), what);
    }
    const std::string& text() const { return text_; }

  private:
    std::string text_;
};

using ClashDays = std::map<std::tuple<std::string, std::string, std::string>, std::set<long>>;

inline ClashDays lived_clashes(const Drawn& drawn) {
    std::map<std::string, std::map<long, std::map<std::size_t, int>>> out; // machine, day, job
    for (std::size_t i = 0; i < drawn.jobs.size(); ++i) {
        const LivedDays days = drawn.lived.live(drawn.jobs[i], drawn.jobs[i].from);
        for (const LivedUse& use : drawn.jobs[i].uses)
            for (const long day : Lived::held(days, use))
                out[use.machine][day][i] += use.units;
    }
    ClashDays clashes;
    for (const auto& [machine, by_day] : out)
        for (const auto& [day, jobs] : by_day) {
            int wanted = 0;
            for (const auto& [job, units] : jobs)
                wanted += units;
            if (wanted <= owned(drawn, machine))
                continue;
            for (const auto& [a, units] : jobs) {
                const std::string first = "job " + std::to_string(a);
                if (units > owned(drawn, machine))
                    clashes[{machine, first, ""}].insert(day);
                for (const auto& [b, others] : jobs)
                    if (a < b) {
                        const std::string second = "job " + std::to_string(b);
                        clashes[{machine, std::min(first, second), std::max(first, second)}].insert(
                            day);
                    }
            }
        }
    return clashes;
}

inline void hold_clashes(const Drawn& drawn, const Season& season, Amiss& amiss) {
    ClashDays clashes;
    for (const Clash& clash : season.clashes.listed) {
        const SeasonJob& one = season.jobs[clash.first];
        const SeasonJob* other = clash.second == Clash::none ? nullptr : &season.jobs[clash.second];
        std::string first = one.title;
        std::string second = other == nullptr ? std::string() : other->title;
        if (other != nullptr && second < first)
            std::swap(first, second);
        for (long day = clash.from; day <= clash.to; ++day)
            amiss.unless(clashes[{clash.machine, first, second}].insert(day).second,
                         "a clash is told twice");
        amiss.unless(clash.may_be == (one.chance < 1 || (other != nullptr && other->chance < 1)),
                     "a clash that may be");
        amiss.unless(clash.owned == owned(drawn, clash.machine) && clash.wanted > clash.owned,
                     "a clash of fewer than are owned");
    }
    amiss.unless(clashes == lived_clashes(drawn), "clashes");
}

struct LivedMonth {
    double job_days = 0, acres = 0, gallons = 0, spent = 0, billed = 0, received = 0, left = 0;
    std::map<std::string, double> hours;
};

// Days on which a use of the job runs.
inline std::vector<long> running(const LivedJob& job, const LivedDays& days, const LivedUse& use) {
    std::vector<long> at;
    bool timeless = true; // none of its stages takes any time
    for (const auto& [day, what] : days) {
        bool works = false;
        for (const std::size_t stage : what.stages) {
            works = works || (use.stages.contains(stage) && !job.stages[stage].waits);
            timeless = timeless && !use.stages.contains(stage);
        }
        if (what.work && (use.stages.empty() || works))
            at.push_back(day);
    }
    if (at.empty() && !timeless) { // it only stands there
        const std::set<long> held = Lived::held(days, use);
        at.assign(held.begin(), held.end());
    }
    if (at.empty())
        for (const auto& [day, what] : days)
            if (what.work)
                at.push_back(day);
    if (at.empty())
        at.push_back(days.begin()->first);
    return at;
}

inline std::map<std::pair<int, unsigned>, LivedMonth> lived_months(const Drawn& drawn) {
    std::map<std::pair<int, unsigned>, LivedMonth> months;
    for (const LivedJob& job : drawn.jobs) {
        const LivedDays days = drawn.lived.live(job, job.from);
        std::vector<long> worked;
        for (const auto& [day, what] : days)
            if (what.work)
                worked.push_back(day);
        if (worked.empty()) // only waiting: it counts on its first day
            worked.push_back(days.begin()->first);
        const double share = job.chance / static_cast<double>(worked.size());
        for (const long day : worked) {
            LivedMonth& month = months[Lived::month(day)];
            month.job_days += job.chance;
            month.acres += job.acres * share;
            month.gallons += job.gallons * share;
            month.spent += job.cost * share;
            month.left += job.left() * share;
        }
        for (const LivedUse& use : job.uses) {
            const std::vector<long> at = running(job, days, use);
            for (const long day : at)
                months[Lived::month(day)].hours[use.machine] +=
                    job.chance * use.hours / static_cast<double>(at.size());
        }
        const long last = days.rbegin()->first;
        months[Lived::month(last)].billed += job.chance * job.price;
        months[Lived::month(last + drawn.question.net_days)].received += job.chance * job.price;
    }
    return months;
}

inline void hold_months(const Drawn& drawn, const Season& season, Amiss& amiss) {
    auto months = lived_months(drawn);
    double so_far = 0;
    for (const MonthRow& row : season.months) {
        LivedMonth lived = months[{row.year, static_cast<unsigned>(row.month)}];
        amiss.unless_near(row.job_days, lived.job_days, "days of a month");
        amiss.unless_near(row.acres, lived.acres, "acres of a month");
        amiss.unless_near(row.gallons, lived.gallons, "gallons of a month");
        amiss.unless_near(row.spent, lived.spent, "spent in a month");
        amiss.unless_near(row.billed, lived.billed, "billed in a month");
        amiss.unless_near(row.received, lived.received, "received in a month");
        amiss.unless_near(row.left, lived.left, "left in a month");
        amiss.unless_near(row.left_so_far, so_far += lived.left, "left so far");
        for (const auto& [machine, hours] : lived.hours) {
            const auto told = row.hours.find(machine);
            amiss.unless_near(told == row.hours.end() ? 0 : told->second, hours,
                              "hours of a month");
        }
        months.erase({row.year, static_cast<unsigned>(row.month)});
    }
    amiss.unless(months.empty(), "a month is missing");
}

// The year paid for, hour by hour and job by job: how many seasons like this one it takes.
inline void hold_cover(const Drawn& drawn, const Season& season, Amiss& amiss) {
    double need = drawn.question.overhead.value_or(0), left = 0, price = 0, acres = 0;
    for (const SeasonMachine& machine : drawn.machines)
        for (int i = 0; i < owned(drawn, machine.name); ++i)
            need += machine.fixed_per_year;
    for (const LivedJob& job : drawn.jobs) {
        if (!drawn.question.overhead)
            need += job.chance * job.overhead;
        left += job.chance * job.left();
        price += job.chance * job.price;
        acres += job.chance * job.acres;
    }
    amiss.unless_near(season.cover.need(), need, "what covers the year");
    amiss.unless_near(season.cover.over(), left - need, "left over of the year");
    if (left <= 0)
        return;
    double low = 0, high = 1;
    while (high * left < need)
        high *= 2;
    for (int i = 0; i < 200; ++i) // seasons like this one
        ((low + high) / 2 * left < need ? low : high) = (low + high) / 2;
    amiss.unless_near(season.cover.price, price * high, "price that covers the year");
    amiss.unless_near(season.cover.acres, acres * high, "acres that cover the year");
    std::map<std::string, double> hours;
    for (const LivedJob& job : drawn.jobs)
        for (const LivedUse& use : job.uses)
            hours[use.machine] += job.chance * use.hours;
    const auto most =
        std::max_element(hours.begin(), hours.end(),
                         [](const auto& a, const auto& b) { return a.second < b.second; });
    amiss.unless(season.cover.machine == (hours.empty() ? "" : most->first), "busiest machine");
    amiss.unless_near(season.cover.hours, hours.empty() ? 0 : most->second * high,
                      "hours that cover the year");
}

// What an hour carries as priced, what it would have to, and what the hours leave uncovered.
inline void hold_year_of(const MachineRow& row, int owned, Amiss& amiss) {
    const double year = row.machine.fixed_per_year, assumed = row.machine.hours_per_year;
    double booked = 0;
    for (const UnitRow& unit : row.units) {
        booked += unit.booked;
        const double open = year * (1 - unit.booked / assumed);
        amiss.unless_near(unit.not_covered, open, "not covered by a unit");
        amiss.unless_near(unit.idle, open > 0 ? open : 0, "idle hours of a unit");
        amiss.unless_near(unit.share * assumed, unit.booked, "share of a unit");
        amiss.unless_near(unit.fixed_at_booked * unit.booked, unit.booked > 0 ? year : 0,
                          "an hour of a unit as booked");
    }
    amiss.unless_near(row.booked, booked, "hours of all units");
    amiss.unless_near(row.idle_hour * assumed, year, "an hour as priced");
    amiss.unless_near(row.fixed, year * owned, "a year of all units");
    amiss.unless_near(row.share * assumed * owned, booked, "share of all units");
    amiss.unless_near(row.not_covered, year * (owned - booked / assumed), "not covered by all");
}

inline void hold_units(const Drawn& drawn, const Season& season, Amiss& amiss) {
    std::map<std::string, double> hours;
    std::map<std::string, std::map<long, int>> wanted;
    for (const LivedJob& job : drawn.jobs) {
        const LivedDays days = drawn.lived.live(job, job.from);
        for (const LivedUse& use : job.uses) {
            hours[use.machine] += job.chance * use.hours;
            for (const long day : Lived::held(days, use))
                wanted[use.machine][day] += use.units;
        }
    }
    for (const MachineRow& row : season.machines) {
        const SeasonMachine& machine = row.machine;
        double booked = 0;
        long held = 0, unit_days = 0;
        int most = 0;
        amiss.unless(row.units.size() == static_cast<std::size_t>(owned(drawn, machine.name)),
                     "units that are owned");
        for (const UnitRow& unit : row.units) {
            booked += unit.booked;
            held += unit.days_held;
        }
        hold_year_of(row, owned(drawn, machine.name), amiss);
        for (const auto& [day, units] : wanted[machine.name]) {
            most = std::max(most, units);
            unit_days += units;
        }
        amiss.unless_near(booked, hours[machine.name], "hours of a machine");
        amiss.unless(row.most_wanted == most, "most wanted at once");
        // With enough of them each is on one job at a time.
        amiss.unless(most > row.owned || held == unit_days, "days that units are held");
    }
}

// Every pair of jobs of one customer that has something in common.
inline void hold_doubles(const Drawn& drawn, const Season& season, Amiss& amiss) {
    std::size_t found = 0;
    for (std::size_t a = 0; a < drawn.told.size(); ++a)
        for (std::size_t b = a + 1; b < drawn.told.size(); ++b) {
            if (drawn.told[a].who != drawn.told[b].who)
                continue;
            const LivedDays one = drawn.lived.live(drawn.jobs[a], drawn.jobs[a].from);
            const LivedDays other = drawn.lived.live(drawn.jobs[b], drawn.jobs[b].from);
            const bool days = std::any_of(
                one.begin(), one.end(), [&](const auto& day) { return other.contains(day.first); });
            const bool acres =
                drawn.jobs[a].acres > 0 && drawn.jobs[a].acres == drawn.jobs[b].acres;
            const bool field =
                !drawn.told[a].boundary.empty() && drawn.told[a].boundary == drawn.told[b].boundary;
            if (!days && !acres && !field)
                continue;
            ++found;
            const std::size_t at_a = told_of(season, a);
            const std::size_t at_b = told_of(season, b);
            const auto pair = std::find_if(
                season.doubles.listed.begin(), season.doubles.listed.end(), [&](const Double& d) {
                    return d.first == std::min(at_a, at_b) && d.second == std::max(at_a, at_b);
                });
            amiss.unless(pair != season.doubles.listed.end() && pair->dates == days &&
                             pair->acres == acres && pair->boundary == field,
                         "two jobs that may be one");
        }
    amiss.unless(found == season.doubles.listed.size(), "how many jobs may be one");
}

inline std::string amiss_in(const Drawn& drawn, const Season& season) {
    Amiss amiss;
    for (std::size_t i = 0; i < drawn.jobs.size(); ++i) {
        const LivedDays days = drawn.lived.live(drawn.jobs[i], drawn.jobs[i].from);
        const std::size_t at = told_of(season, i);
        if (at == season.jobs.size())
            return "a job is lost";
        amiss.unless(season.jobs[at].dated.start == days.begin()->first, "first day of a job");
        amiss.unless(season.jobs[at].dated.finish == days.rbegin()->first, "last day of a job");
    }
    hold_clashes(drawn, season, amiss);
    hold_months(drawn, season, amiss);
    hold_cover(drawn, season, amiss);
    hold_units(drawn, season, amiss);
    hold_doubles(drawn, season, amiss);
    return amiss.text();
}

} // namespace acre::tests
