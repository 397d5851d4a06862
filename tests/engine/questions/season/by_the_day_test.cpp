// The season against one lived through day by day: days, clashes, hours, money by month, what
// covers the year, and the plan.
#include "tests/engine/questions/season/drawn_seasons.h"

#include <algorithm>
#include <memory>
#include <numeric>
#include <optional>
#include <random>
#include <tuple>

#include <doctest/doctest.h>

namespace by_the_day_test {

using namespace acre;
using namespace acre::engine;
using tests::Draw;
using tests::Drawn;
using tests::Lived;
using tests::LivedDays;
using tests::LivedJob;
using tests::LivedUse;
using tests::owned;
using tests::told_of;

namespace {

using ClashDays = std::map<std::tuple<std::string, std::string, std::string>, std::set<long>>;

ClashDays lived_clashes(const Drawn& drawn) {
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

ClashDays told_clashes(const Season& season) {
    ClashDays clashes;
    for (const Clash& clash : season.clashes.listed) {
        std::string first = season.jobs[clash.first].title;
        std::string second =
            clash.second == Clash::none ? std::string() : season.jobs[clash.second].title;
        if (!second.empty() && second < first)
            std::swap(first, second);
        for (long day = clash.from; day <= clash.to; ++day)
            CHECK(clashes[{clash.machine, first, second}].insert(day).second);
    }
    return clashes;
}

struct LivedMonth {
    double spent = 0, billed = 0, received = 0, left = 0;
    std::map<std::string, double> hours;
};

std::map<std::pair<int, unsigned>, LivedMonth> lived_months(const Drawn& drawn) {
    std::map<std::pair<int, unsigned>, LivedMonth> months;
    for (const LivedJob& job : drawn.jobs) {
        const LivedDays days = drawn.lived.live(job, job.from);
        double work = 0;
        for (const auto& [day, what] : days)
            work += what.work ? 1 : 0;
        if (work == 0) { // only waiting: it counts on its first day
            months[Lived::month(days.begin()->first)].spent += job.cost;
            months[Lived::month(days.begin()->first)].left += job.price - job.cost + job.fixed;
        }
        for (const auto& [day, what] : days)
            if (what.work) {
                months[Lived::month(day)].spent += job.cost / work;
                months[Lived::month(day)].left += (job.price - job.cost + job.fixed) / work;
            }
        for (const LivedUse& use : job.uses) {
            std::vector<long> at;
            for (const auto& [day, what] : days)
                if (what.work &&
                    (use.stages.empty() ||
                     std::any_of(what.stages.begin(), what.stages.end(), [&](std::size_t s) {
                         return use.stages.contains(s) && !job.stages[s].waits;
                     })))
                    at.push_back(day);
            const std::set<long> held = Lived::held(days, use);
            bool all = true; // none of its stages takes any time
            for (const auto& [day, what] : days)
                for (const std::size_t stage : what.stages)
                    all = all && !use.stages.contains(stage);
            if (at.empty() && !all) // it only stands there
                at.assign(held.begin(), held.end());
            const bool works = at.empty();
            for (const auto& [day, what] : days)
                if (what.work && all && works)
                    at.push_back(day);
            if (at.empty())
                at.push_back(days.begin()->first);
            for (const long day : at)
                months[Lived::month(day)].hours[use.machine] +=
                    use.hours / static_cast<double>(at.size());
        }
        const long last = days.rbegin()->first;
        months[Lived::month(last)].billed += job.price;
        months[Lived::month(last + drawn.question.net_days)].received += job.price;
    }
    return months;
}

void check_months(const Drawn& drawn, const Season& season) {
    auto months = lived_months(drawn);
    for (const MonthRow& row : season.months) {
        LivedMonth lived = months[{row.year, static_cast<unsigned>(row.month)}];
        CHECK(row.spent == doctest::Approx(lived.spent));
        CHECK(row.billed == doctest::Approx(lived.billed));
        CHECK(row.received == doctest::Approx(lived.received));
        CHECK(row.left == doctest::Approx(lived.left));
        for (const auto& [machine, hours] : row.hours)
            CHECK(hours == doctest::Approx(lived.hours[machine]));
        months.erase({row.year, static_cast<unsigned>(row.month)});
    }
    CHECK(months.empty());
}

// The year paid for, hour by hour and job by job: how many seasons like this one it takes.
void check_cover(const Drawn& drawn, const Season& season) {
    double need = drawn.question.overhead.value_or(0), left = 0, price = 0, acres = 0;
    for (const SeasonMachine& machine : drawn.machines)
        for (int i = 0; i < owned(drawn, machine.name); ++i)
            need += machine.fixed_per_year;
    for (const LivedJob& job : drawn.jobs) {
        if (!drawn.question.overhead)
            need += job.overhead;
        left += job.price - (job.cost - job.fixed);
        price += job.price;
        acres += job.acres;
    }
    CHECK(season.cover.need() == doctest::Approx(need));
    CHECK(season.cover.over() == doctest::Approx(left - need));
    if (left <= 0)
        return;
    double low = 0, high = 1;
    while (high * left < need)
        high *= 2;
    for (int i = 0; i < 200; ++i) // seasons like this one
        ((low + high) / 2 * left < need ? low : high) = (low + high) / 2;
    CHECK(season.cover.price == doctest::Approx(price * high));
    CHECK(season.cover.acres == doctest::Approx(acres * high));
}

void check_units(const Drawn& drawn, const Season& season) {
    std::map<std::string, double> hours;
    for (const LivedJob& job : drawn.jobs)
        for (const LivedUse& use : job.uses)
            hours[use.machine] += use.hours;
    for (const MachineRow& row : season.machines) {
        const SeasonMachine& machine = row.machine;
        double booked = 0;
        REQUIRE(row.units.size() == static_cast<std::size_t>(owned(drawn, machine.name)));
        for (const UnitRow& unit : row.units) {
            booked += unit.booked;
            CHECK(unit.not_covered == doctest::Approx(machine.fixed_per_year *
                                                      (1 - unit.booked / machine.hours_per_year)));
        }
        CHECK(booked == doctest::Approx(hours[machine.name]));
    }
}

} // namespace

TEST_CASE("two hundred seasons agree with themselves lived through day by day") {
    for (unsigned seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        Draw draw(seed);
        const Drawn drawn = draw.season(draw.whole(1, 12));
        const Season season = engine::season(drawn.told, drawn.machines, drawn.question);
        for (std::size_t i = 0; i < drawn.jobs.size(); ++i) {
            const LivedDays days = drawn.lived.live(drawn.jobs[i], drawn.jobs[i].from);
            const SeasonJob& told = season.jobs[told_of(season, i)];
            CHECK(told.dated.start == days.begin()->first);
            CHECK(told.dated.finish == days.rbegin()->first);
        }
        CHECK(told_clashes(season) == lived_clashes(drawn));
        check_months(drawn, season);
        check_cover(drawn, season);
        check_units(drawn, season);
    }
}

} // namespace by_the_day_test
