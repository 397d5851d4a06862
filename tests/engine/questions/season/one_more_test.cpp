// One more of a machine, and what covers the year, where there is little or nothing to divide by.
#include "engine/questions/season/one_more.h"

#include <vector>

#include <doctest/doctest.h>

#include "engine/questions/season/cover.h"

namespace one_more_test {

using namespace acre::engine;

namespace {

// Two days of work by the tenth, for $50 more than it costs.
SeasonJob job_of(double acres) {
    SeasonJob job;
    job.earliest = 1;
    job.latest = 10;
    job.days = 2;
    job.price = 1'050;
    job.cost = 1'000;
    job.acres = acres;
    job.uses = {{"crawler", 1, 16, {}}};
    job.dated = place(job, job.earliest);
    return job;
}

OneMore more_of(const std::vector<SeasonJob>& jobs) {
    const SeasonMachine crawler{"crawler", "", 9'000, 1'800, false};
    return one_more(jobs, crawler, {}, *plan_jobs(jobs, {}, 10));
}

} // namespace

TEST_CASE("the acres that pay one more of a machine follow from what an acre leaves") {
    const OneMore more = more_of({job_of(100)}); // 50 cents an acre, so 18,000 ac pay $9,000
    CHECK(more.answered);
    CHECK(more.proved);
    CHECK(more.owned == 1);
    CHECK(more.left_per_acre == doctest::Approx(0.5));
    CHECK(more.acres == doctest::Approx(18'000));
    CHECK(more.gained == 0); // it fits without
    CHECK(more.net() == -9'000);
    CHECK(more.fit_now.empty());
    CHECK(more.never.empty());
}

TEST_CASE("jobs without acres say nothing of them, nor jobs of another machine") {
    SeasonJob other = job_of(40);
    other.uses[0].machine = "loader";
    const OneMore more = more_of({job_of(0), other});
    CHECK(more.left_per_acre == 0);
    CHECK(more.acres == 0);
}

TEST_CASE("a job that no number of machines does in time is told as such") {
    std::vector<SeasonJob> jobs(3, job_of(100));
    jobs[0].latest = 1; // two days of work
    jobs[1].latest = jobs[2].latest = 2;
    const OneMore more = more_of(jobs);
    CHECK(more.never == std::vector<std::size_t>{0});
    CHECK(more.fit_now.size() == 1); // of two that want both days
    CHECK(more.gained == 50);
}

TEST_CASE("days that jobs wait with one machine and with two") {
    const OneMore more = more_of({job_of(100), job_of(100), job_of(100)});
    CHECK(more.days_moved_without == 2 + 4);
    CHECK(more.days_moved_with == 2);
}

TEST_CASE("the smallest sum that is left covers the year in the end, nothing never does") {
    SeasonSums sums;
    sums.price = 1'000;
    sums.cost = 999.5;
    sums.acres = 4;
    const Cover little = cover(sums, {}, 100); // 200 seasons like this one
    CHECK(little.price == doctest::Approx(200'000));
    CHECK(little.acres == doctest::Approx(800));
    CHECK(little.machine.empty());
    CHECK(little.hours == 0);
    sums.cost = 1'000;
    const Cover none = cover(sums, {}, 100);
    CHECK(none.left == 0);
    CHECK(none.price == 0);
    CHECK(none.acres == 0);
}

} // namespace one_more_test
