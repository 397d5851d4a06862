// The order of a few jobs: what it is where no date and no worth tells it, beside every order gone
// through on a strip of days.
#include "engine/questions/season/order_search.h"

#include <algorithm>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

#include "engine/questions/season/season_plan.h"
#include "tests/support/dice.h"

namespace order_search_test {

using namespace acre::engine;

namespace {

using Fleet = std::map<std::string, Owned>;

// So many days of work from a day on, for $1,000 more than it costs.
SeasonJob job_of(long earliest, double days, const std::string& machine = "crawler") {
    SeasonJob job;
    job.earliest = earliest;
    job.days = days;
    job.price = 1'000;
    job.uses = {{machine, 1, 8, {}}};
    job.dated = place(job, job.earliest);
    return job;
}

// On which day each starts; 0: it does not fit.
std::vector<long> starts(const std::vector<SeasonJob>& jobs, const Fleet& fleet = {}) {
    const auto plan = plan_jobs(jobs, fleet, 1'000);
    REQUIRE(plan);
    CHECK(plan->proved);
    std::vector<long> days;
    for (const PlannedJob& job : plan->jobs)
        days.push_back(job.fits ? job.at.start : 0);
    return days;
}

// What the best order loses: each job in its turn on the first days that are free.
std::pair<double, long> best_of_all(const std::vector<SeasonJob>& jobs, const Fleet& fleet,
                                    long until) {
    std::vector<std::size_t> order(jobs.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::pair<double, long> best = {1e9, 0};
    do {
        std::map<std::string, std::vector<int>> out;
        double money = 0;
        long late = 0;
        for (const std::size_t i : order) {
            const SeasonJob& job = jobs[i];
            const auto days = static_cast<long>(job.days);
            const auto is_free = [&](long from) {
                for (const MachineUse& use : job.uses)
                    for (long day = from; day < from + days; ++day)
                        if (out[use.machine][static_cast<std::size_t>(day)] + use.units >
                            fleet.at(use.machine).count)
                            return false;
                return true;
            };
            for (const MachineUse& use : job.uses)
                out[use.machine].resize(400);
            long from = job.earliest;
            const long latest = job.latest.value_or(until) - days + 1;
            while (from <= latest && !is_free(from))
                ++from;
            if (from > latest) {
                money += std::max(0.0, job.chance * (job.price - job.cost));
                continue;
            }
            late += from - job.earliest;
            for (const MachineUse& use : job.uses)
                for (long day = from; day < from + days; ++day)
                    out[use.machine][static_cast<std::size_t>(day)] += use.units;
        }
        if (money < best.first - 0.005 || (money < best.first + 0.005 && late < best.second))
            best = {money, late};
    } while (std::next_permutation(order.begin(), order.end()));
    return best;
}

struct Drawn {
    std::vector<SeasonJob> jobs;
    Fleet fleet;
    long until = 0;
};

// Jobs that crowd a few weeks.
Drawn drawn(std::uint64_t seed, std::size_t jobs) {
    acre::tests::Dice dice(seed);
    const auto whole = [&](long low, long high) {
        return low + static_cast<long>(dice.below(static_cast<std::size_t>(high - low + 1)));
    };
    Drawn drawn;
    drawn.fleet = {{"crawler", {1, {}}}, {"loader", {static_cast<int>(whole(1, 2)), {}}}};
    for (std::size_t i = 0; i < jobs; ++i) {
        SeasonJob job = job_of(whole(1, 12), static_cast<double>(whole(1, 7)));
        const long uses = whole(0, 3); // mostly the crawler, the loader, or both
        if (uses == 2)
            job.uses[0].machine = "loader";
        if (uses == 3)
            job.uses.push_back({"loader", static_cast<int>(whole(1, 2)), 8, {}});
        if (whole(0, 2) == 0)
            job.latest = job.earliest + whole(6, 20);
        job.price = static_cast<double>(whole(1, 20)) * 1'000;
        job.cost = whole(0, 9) == 0 ? job.price + 500 : 0; // some are better left out
        drawn.jobs.push_back(job);
    }
    drawn.until = whole(16, 40);
    return drawn;
}

} // namespace

TEST_CASE("the shortest goes first where nothing else is at stake") {
    // Nine days, five and one, all from the first: one goes, five waits a day, nine waits six.
    CHECK(starts({job_of(1, 9), job_of(1, 5), job_of(1, 1)}) == std::vector<long>{7, 2, 1});
    // An order that loses one day less is found as well.
    CHECK(starts({job_of(1, 3), job_of(1, 2)}) == std::vector<long>{3, 1});
}

TEST_CASE("of orders that lose the same the one by date stands, then the one as it was given") {
    CHECK(starts({job_of(1, 4), job_of(1, 4), job_of(1, 4)}) == std::vector<long>{1, 5, 9});
    CHECK(starts({job_of(3, 4), job_of(1, 4)}) == std::vector<long>{5, 1});
}

TEST_CASE("two machines of a kind take two jobs at once") {
    // Seven and one at once; of the others one waits a day for the one, one a week for the seven.
    const Fleet two = {{"crawler", {2, {}}}};
    const std::vector<SeasonJob> jobs = {job_of(1, 9), job_of(1, 8), job_of(1, 7), job_of(1, 1)};
    const auto plan = plan_jobs(jobs, two, 1'000);
    REQUIRE(plan);
    CHECK(plan->days_moved == 1 + 7);
    CHECK(plan->jobs[2].at.start == 1);
    CHECK(plan->jobs[3].at.start == 1);
}

TEST_CASE("money counts before days, to the half cent") {
    // Both want the same two days; the other comes too late.
    const auto fits = [](double first, double second) {
        std::vector<SeasonJob> jobs = {job_of(1, 2), job_of(1, 2)};
        jobs[0].price = first;
        jobs[1].price = second;
        jobs[0].latest = jobs[1].latest = 2;
        return starts(jobs);
    };
    CHECK(fits(500, 500.01) == std::vector<long>{0, 1});
    CHECK(fits(500.01, 500) == std::vector<long>{1, 0});
    CHECK(fits(500, 500.004) == std::vector<long>{1, 0}); // no difference
    CHECK(OrderLoss{1, 5} < OrderLoss{1.004, 6});
    CHECK_FALSE(OrderLoss{1, 6} < OrderLoss{1.004, 5});
    CHECK(OrderLoss{1, 6} < OrderLoss{1.006, 5});
    CHECK_FALSE(OrderLoss{1.006, 5} < OrderLoss{1, 6});
    CHECK_FALSE(OrderLoss{1, 5} < OrderLoss{1, 5});
}

TEST_CASE("no order of jobs that crowd a few weeks loses less") {
    int reordered = 0;
    for (std::uint64_t seed = 0; seed < 60; ++seed) {
        CAPTURE(seed);
        const Drawn told = drawn(seed, 6);
        const auto plan = plan_jobs(told.jobs, told.fleet, told.until);
        REQUIRE(plan);
        CHECK(plan->proved);
        double lost = 0;
        for (std::size_t i = 0; i < told.jobs.size(); ++i)
            lost += plan->jobs[i].fits ? 0 : std::max(0.0, told.jobs[i].left());
        const auto [money, days] = best_of_all(told.jobs, told.fleet, told.until);
        CHECK(lost == doctest::Approx(money));
        CHECK(plan->days_moved == days);
        reordered += days > 0 ? 1 : 0;
    }
    CHECK(reordered > 30);
}

TEST_CASE("nine jobs in each other's way are proved without trying all their orders") {
    for (std::uint64_t seed = 0; seed < 20; ++seed) {
        CAPTURE(seed);
        const Drawn told = drawn(seed, 9);
        const auto plan = plan_jobs(told.jobs, told.fleet, 200);
        REQUIRE(plan);
        CHECK(plan->proved);
        CHECK(plan->trials < max_plan_trials / 2); // of 362,880 orders of nine places
    }
}

TEST_CASE("a plan has limits of jobs and days, and a search one of jobs") {
    std::vector<SeasonJob> jobs(max_planned_jobs, job_of(1, 1));
    for (SeasonJob& job : jobs)
        job.uses.clear(); // in nobody's way
    CHECK(plan_jobs(jobs, {}, 10));
    jobs.push_back(jobs.front());
    CHECK_FALSE(plan_jobs(jobs, {}, 10));
    CHECK(plan_jobs({job_of(1, 1)}, {}, 1 + max_plan_days));
    CHECK_FALSE(plan_jobs({job_of(1, 1)}, {}, 2 + max_plan_days));
    std::vector<SeasonJob> turns(max_searched_jobs, job_of(1, 2));
    CHECK(plan_jobs(turns, {}, 500)->proved);
    turns.push_back(turns.front());
    CHECK_FALSE(plan_jobs(turns, {}, 500)->proved);
}

} // namespace order_search_test
