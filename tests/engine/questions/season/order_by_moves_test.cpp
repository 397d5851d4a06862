// The order that saves moves, beside every order of a few jobs on one crawler, counted day by day.
#include "engine/questions/season/order_by_moves.h"

#include <algorithm>
#include <numeric>
#include <random>

#include <doctest/doctest.h>

#include "engine/questions/season/season.h"

namespace order_by_moves_test {

using namespace acre::engine;

namespace {

constexpr long first_day = 20'900;

struct Told {
    std::vector<SeasonJob> jobs;
    std::vector<PricedRoad> roads;
    long until = 0;
};

SeasonJob job_of(long earliest, double days) {
    SeasonJob job;
    job.earliest = earliest;
    job.days = days;
    job.price = 50'000;
    job.cost = 30'000;
    job.uses = {{"crawler", 1, 100, {}}};
    return job;
}

PricedRoad road(std::size_t from, std::size_t to, double saved) {
    PricedRoad one;
    one.from = from;
    one.to = to;
    one.way_home.cost = saved;
    return one;
}

// By the order: each as soon as the one before is done. The most that any order saves where all
// are done in time, and with it the fewest days late.
struct Best {
    double saved = -1;
    long days = 0;
};
Best best_of_all_orders(const Told& told) {
    std::vector<std::size_t> order(told.jobs.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    Best best;
    do {
        long day = 0, late = 0, end = 0;
        double saved = 0;
        for (std::size_t k = 0; k < order.size(); ++k) {
            const SeasonJob& job = told.jobs[order[k]];
            const long start = std::max(job.earliest, day);
            if (k > 0 && start - day <= 30)
                for (const PricedRoad& road : told.roads)
                    if (road.from == order[k - 1] && road.to == order[k])
                        saved += road.way_home.cost;
            late += start - job.earliest;
            day = start + static_cast<long>(job.days);
            end = day - 1;
        }
        if (end <= told.until &&
            (saved > best.saved + 0.001 || (saved > best.saved - 0.001 && late < best.days)))
            best = {saved, late};
    } while (std::next_permutation(order.begin(), order.end()));
    return best;
}

double saved_by(const Told& told, const SeasonPlan& plan) {
    std::vector<std::size_t> order(told.jobs.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return plan.jobs[a].at.start < plan.jobs[b].at.start;
    });
    double saved = 0;
    for (std::size_t k = 1; k < order.size(); ++k)
        for (const PricedRoad& road : told.roads)
            if (road.from == order[k - 1] && road.to == order[k] &&
                plan.jobs[order[k]].at.start - plan.jobs[order[k - 1]].at.finish <= 31)
                saved += road.way_home.cost;
    return saved;
}

Told drawn(unsigned seed) {
    std::mt19937 from(seed);
    const auto whole = [&](int low, int high) {
        return std::uniform_int_distribution<int>(low, high)(from);
    };
    Told told;
    const int jobs = whole(2, 6);
    for (int i = 0; i < jobs; ++i)
        told.jobs.push_back(job_of(first_day + whole(0, 40), whole(2, 12)));
    std::sort(told.jobs.begin(), told.jobs.end(),
              [](const SeasonJob& a, const SeasonJob& b) { return a.earliest < b.earliest; });
    for (std::size_t a = 0; a < told.jobs.size(); ++a)
        for (std::size_t b = 0; b < told.jobs.size(); ++b)
            if (a != b && whole(0, 2) == 0)
                told.roads.push_back(road(a, b, whole(500, 9'000)));
    told.until = first_day + 40 + whole(40, 90);
    return told;
}

} // namespace

TEST_CASE("a job waits for the neighbor whose machine can go on to it") {
    Told told;
    told.jobs = {job_of(first_day, 5), job_of(first_day + 6, 5), job_of(first_day + 12, 5)};
    told.roads = {road(0, 2, 4'000)};
    told.until = first_day + 60;
    const Season before = season(told.jobs, {}, {{}, 20, {}, told.until, {}});
    REQUIRE(before.plan);
    const SeasonPlan plan = order_by_moves(before.jobs, {}, *before.plan, told.roads);
    CHECK(plan.by_roads);
    CHECK_FALSE(plan.proved);
    CHECK(plan.jobs[2].at.start == first_day + 12);
    CHECK(plan.jobs[1].at.start == first_day + 17);
    CHECK(plan.days_for_moves == 11);
    // Where the middle job has a day by which it is done, it is not put off.
    told.jobs[1].latest = first_day + 15;
    const Season dated = season(told.jobs, {}, {{}, 20, {}, told.until, {}});
    CHECK_FALSE(order_by_moves(dated.jobs, {}, *dated.plan, told.roads).by_roads);
}

TEST_CASE("a job that the plan leaves out does not make every order look better") {
    // Of the last two, which must both be done by the 17th day, one is left out.
    Told told;
    told.jobs = {job_of(first_day, 5), job_of(first_day + 6, 5), job_of(first_day + 12, 5),
                 job_of(first_day + 12, 5)};
    told.jobs[2].latest = told.jobs[3].latest = first_day + 16;
    told.jobs[2].price = 60'000;
    told.until = first_day + 60;
    const Season before = season(told.jobs, {}, {{}, 20, {}, told.until, {}});
    REQUIRE(before.plan);
    CHECK(before.plan->left_out == 1);
    CHECK(before.plan->lost == 20'000);
    // The first road is taken as the jobs stand; the second leads to the one that is out.
    const std::vector<PricedRoad> stands = {road(0, 1, 4'000), road(1, 3, 9'000)};
    CHECK_FALSE(order_by_moves(before.jobs, {}, *before.plan, stands).by_roads);
    // Going from the first to the third puts off the second, and loses no more.
    const SeasonPlan other = order_by_moves(before.jobs, {}, *before.plan, {road(0, 2, 4'000)});
    CHECK(other.by_roads);
    CHECK(other.jobs[1].at.start == first_day + 17);
    CHECK(other.lost == 20'000);
    CHECK(other.left_out == 1);
    REQUIRE(other.units.size() == 4);
    for (std::size_t job = 0; job < 3; ++job) {
        REQUIRE(other.units[job].size() == 1);
        CHECK(other.units[job][0].days.first == other.jobs[job].at.start);
        CHECK(other.units[job][0].units == std::vector<std::size_t>{0});
    }
    CHECK(other.units[3].empty());
}

TEST_CASE("a job may be put off past the last day of the season where its own latest day allows") {
    Told told;
    told.jobs = {job_of(first_day, 5), job_of(first_day + 6, 5), job_of(first_day + 12, 5)};
    told.jobs[1].latest = first_day + 21;
    told.until = first_day + 16; // the last day of the third
    const Season before = season(told.jobs, {}, {{}, 20, {}, told.until, {}});
    REQUIRE(before.plan);
    const SeasonPlan plan = order_by_moves(before.jobs, {}, *before.plan, {road(0, 2, 4'000)});
    CHECK(plan.by_roads);
    CHECK(plan.jobs[1].at.finish == first_day + 21);
    CHECK(plan.last_day == told.until);
}

TEST_CASE("as good as the best of all orders, or nearly, and never worse than without roads") {
    int best = 0, seasons = 0;
    double missed = 0, all = 0;
    for (unsigned seed = 0; seed < 300; ++seed) {
        CAPTURE(seed);
        const Told told = drawn(seed);
        const Season before = season(told.jobs, {}, {{}, 20, {}, told.until, {}});
        REQUIRE(before.plan);
        if (before.plan->left_out > 0) // what does not fit is another question
            continue;
        ++seasons;
        const SeasonPlan plan = order_by_moves(before.jobs, {}, *before.plan, told.roads);
        const double saved = saved_by(told, plan);
        CHECK(saved >= saved_by(told, *before.plan) - 0.001);
        CHECK(plan.left_out == 0);
        CHECK(plan.days_for_moves == plan.days_moved - before.plan->days_moved);
        for (std::size_t a = 0; a < told.jobs.size(); ++a)
            for (std::size_t b = 0; b < a; ++b)
                CHECK((plan.jobs[a].at.finish < plan.jobs[b].at.start ||
                       plan.jobs[b].at.finish < plan.jobs[a].at.start));
        const Best most = best_of_all_orders(told);
        CHECK(saved <= most.saved + 0.001);
        best += saved > most.saved - 0.001 ? 1 : 0;
        missed += most.saved - saved;
        all += most.saved;
    }
    MESSAGE(best << " of " << seasons << " save the most; " << 100 * missed / all
                 << " % of all savings are missed");
    CHECK(seasons > 250);
    CHECK(best >= seasons * 8 / 10);
    CHECK(missed < 0.05 * all);
}

} // namespace order_by_moves_test
