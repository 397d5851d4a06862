// Days on which more machines are wanted than there are, against counting day by day.
#include "engine/questions/season/clashes.h"

#include <algorithm>
#include <map>
#include <random>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include <doctest/doctest.h>

#include "engine/questions/season/doubles.h"

namespace clashes_test {

using namespace acre::engine;

namespace {

struct Jobs {
    std::vector<SeasonJob> jobs;
    std::vector<JobPlace> places;

    void add(const std::string& machine, std::vector<DaySpan> days, int units = 1,
             double chance = 1) {
        SeasonJob& job = jobs.emplace_back();
        job.uses = {{machine, units, 10, {}}};
        job.chance = chance;
        places.emplace_back().held = {std::move(days)};
    }
    Clashes clashes(int owned) const {
        return find_clashes(jobs, places, {{"crawler", {owned, {}}}, {"rig", {owned, {}}}});
    }
};

// Machine, the two jobs (the lesser first; the one twice if it is alone), day.
using Day = std::tuple<std::string, std::size_t, std::size_t, long>;

bool holds(const JobPlace& place, long day) {
    return std::any_of(
        place.held[0].begin(), place.held[0].end(),
        [&](const DaySpan& span) { return span.first <= day && day <= span.last; });
}

std::set<Day> by_the_day(const Jobs& all, int owned, long days) {
    std::set<Day> found;
    for (const std::string machine : {"crawler", "rig"})
        for (long day = 0; day < days; ++day) {
            std::vector<std::size_t> there;
            int wanted = 0;
            for (std::size_t i = 0; i < all.jobs.size(); ++i)
                if (all.jobs[i].uses[0].machine == machine && holds(all.places[i], day)) {
                    there.push_back(i);
                    wanted += all.jobs[i].uses[0].units;
                }
            if (wanted <= owned)
                continue;
            for (const std::size_t a : there)
                for (const std::size_t b : there)
                    if (a < b || (a == b && all.jobs[a].uses[0].units > owned))
                        found.emplace(machine, a, b, day);
        }
    return found;
}

std::set<Day> days_of(const Clashes& clashes) {
    std::set<Day> found;
    for (const Clash& clash : clashes.listed) {
        const std::size_t other = clash.second == Clash::none ? clash.first : clash.second;
        for (long day = clash.from; day <= clash.to; ++day)
            CHECK(found
                      .emplace(clash.machine, std::min(clash.first, other),
                               std::max(clash.first, other), day)
                      .second); // told once
    }
    return found;
}

} // namespace

TEST_CASE("two jobs clash on the days that both have, the first and the last among them") {
    Jobs jobs;
    jobs.add("crawler", {{10, 20}});
    jobs.add("crawler", {{20, 25}}, 1, 0.5); // an offer, from the day on which the first ends
    jobs.add("crawler", {{26, 30}});         // the day after: no clash
    const Clashes one = jobs.clashes(1);
    REQUIRE(one.listed.size() == 1);
    CHECK(one.all);
    const Clash& clash = one.listed[0];
    CHECK(clash.machine == "crawler");
    CHECK(clash.first == 0);
    CHECK(clash.second == 1);
    CHECK(clash.from == 20);
    CHECK(clash.to == 20);
    CHECK(clash.wanted == 2);
    CHECK(clash.owned == 1);
    CHECK(clash.may_be);
    CHECK(jobs.clashes(2).listed.empty()); // as many as there are
}

TEST_CASE("a job that wants more than there are clashes by itself") {
    Jobs jobs;
    jobs.add("crawler", {{10, 12}, {15, 16}}, 3);
    CHECK(jobs.clashes(3).listed.empty());
    const Clashes two = jobs.clashes(2);
    REQUIRE(two.listed.size() == 2); // between them the machines are away
    CHECK(two.listed[0].second == Clash::none);
    CHECK(two.listed[0].from == 10);
    CHECK(two.listed[0].to == 12);
    CHECK(two.listed[0].wanted == 3);
    CHECK_FALSE(two.listed[0].may_be);
    CHECK(two.listed[1].from == 15);
    CHECK(two.listed[1].to == 16);
}

TEST_CASE("clashes are those of counting day by day") {
    std::mt19937 random(53);
    const auto draw = [&](int low, int high) {
        return std::uniform_int_distribution<>(low, high)(random);
    };
    std::size_t seen = 0;
    for (int trial = 0; trial < 120; ++trial) {
        constexpr long days = 60;
        Jobs jobs;
        for (int job = draw(1, 9); job > 0; --job) {
            std::vector<DaySpan> held;
            for (long at = draw(0, 20); at < days - 10 && held.size() < 3; at += draw(2, 12)) {
                held.push_back({at, at + draw(0, 8)});
                at = held.back().last + 1;
            }
            jobs.add(draw(0, 2) == 0 ? "rig" : "crawler", held, draw(1, 3),
                     draw(0, 1) == 0 ? 1 : 0.4);
        }
        const int owned = draw(1, 4);
        const Clashes found = jobs.clashes(owned);
        CAPTURE(trial);
        CHECK(days_of(found) == by_the_day(jobs, owned, days));
        for (std::size_t i = 0; i < found.listed.size(); ++i) {
            const Clash& clash = found.listed[i];
            CHECK(clash.owned == owned);
            CHECK(clash.wanted > owned);
            const auto is_offer = [&](std::size_t job) {
                return job != Clash::none && jobs.jobs[job].chance < 1;
            };
            CHECK(clash.may_be == (is_offer(clash.first) || is_offer(clash.second)));
            CHECK((i == 0 || found.listed[i - 1].from <= clash.from));
        }
        seen += found.listed.size();
    }
    CHECK(seen > 500);
}

TEST_CASE("one customer's jobs may be one: the same ground, acres or days") {
    const auto job = [](const char* who, const char* boundary, double acres, long start,
                        long finish) {
        SeasonJob out;
        out.who = who;
        out.boundary = boundary;
        out.acres = acres;
        out.dated.start = start;
        out.dated.finish = finish;
        return out;
    };
    const SeasonJob one = job("Ada", "a.geojson", 40, 10, 20);
    const auto pair = [&](const SeasonJob& other) {
        const Doubles found = find_doubles({one, other});
        CHECK(found.all);
        REQUIRE(found.listed.size() <= 1);
        return found.listed.empty() ? Double{9, 9, false, false, false} : found.listed[0];
    };
    const auto is = [](const Double& found, bool boundary, bool acres, bool dates) {
        CHECK(found.boundary == boundary);
        CHECK(found.acres == acres);
        CHECK(found.dates == dates);
        CHECK(found.second == (boundary || acres || dates ? 1 : 9));
    };
    is(pair(job("Ada", "b.geojson", 50, 21, 30)), false, false, false);
    is(pair(job("Ada", "a.geojson", 50, 21, 30)), true, false, false);
    is(pair(job("Ada", "b.geojson", 40.00003, 21, 30)), false, true, false);
    is(pair(job("Ada", "b.geojson", 40.0001, 21, 30)), false, false, false);
    is(pair(job("Ada", "b.geojson", 50, 20, 30)), false, false, true); // one day
    is(pair(job("Ada", "b.geojson", 50, 1, 10)), false, false, true);
    is(pair(job("Ada", "b.geojson", 50, 1, 9)), false, false, false);
    is(pair(job("Ada", "a.geojson", 40, 12, 13)), true, true, true);
    is(pair(job("Grace", "a.geojson", 40, 12, 13)), false, false, false);
    // Of nobody, of no ground and of no acres nothing is known.
    CHECK(find_doubles({job("", "a", 40, 1, 9), job("", "a", 40, 1, 9)}).listed.empty());
    CHECK(find_doubles({job("Ada", "", 0, 1, 9), job("Ada", "", 0, 11, 12)}).listed.empty());
    // Each pair of three; and not past the limit.
    CHECK(find_doubles({one, one, one}).listed.size() == 3);
    const Doubles many = find_doubles(std::vector<SeasonJob>(46, one)); // 1,035 pairs
    CHECK(many.listed.size() == max_doubles);
    CHECK_FALSE(many.all);
}

} // namespace clashes_test
