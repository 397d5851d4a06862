#include "engine/questions/season/season.h"

#include <chrono>

#include <doctest/doctest.h>

namespace season_test {

using namespace acre::engine;

namespace {

long day(int year, unsigned month, unsigned date) {
    return std::chrono::sys_days{std::chrono::year{year} / static_cast<int>(month) /
                                 static_cast<int>(date)}
        .time_since_epoch()
        .count();
}
SeasonJob job(const char* title, long start, double days, double hours, double price, double cost,
              double acres) {
    SeasonJob result;
    result.title = title;
    result.start = start;
    result.days = days;
    result.price = price;
    result.cost = cost;
    result.acres = acres;
    result.hours["crawler"] = hours;
    return result;
}
const std::vector<SeasonMachine> crawler = {{"crawler", 115'000, 1'800}};

} // namespace

TEST_CASE("hours booked against hours assumed, by hand") {
    const Season result = season({job("a", day(2027, 5, 1), 10, 150, 100'000, 80'000, 150),
                                  job("b", day(2027, 6, 1), 20, 300, 180'000, 150'000, 300)},
                                 crawler, {}, 20);
    REQUIRE(result.machines.size() == 1);
    const MachineRow& row = result.machines[0];
    CHECK(row.booked == doctest::Approx(450));
    CHECK(row.share == doctest::Approx(0.25));
    CHECK(row.idle_hour == doctest::Approx(115'000.0 / 1800));
    CHECK(row.not_earned == doctest::Approx(115'000 * 0.75));
    CHECK(row.fixed_at_booked == doctest::Approx(115'000.0 / 450));
    // What covers the year: 450 acres bring 50,000 after all costs, of which 28,750 went to fixed
    // cost already.
    CHECK(result.left_for_machines == doctest::Approx(50'000 + 28'750));
    CHECK(result.break_even_acres == doctest::Approx(450 * 115'000 / 78'750.0));
}

TEST_CASE("profit, and what is left for the machines, is after overhead") {
    SeasonJob small = job("a", day(2027, 5, 1), 4, 0, 10'000, 7'000, 150);
    SeasonJob large = job("b", day(2027, 6, 1), 20, 0, 80'000, 70'000, 300);
    small.overhead = 2'600; // $100 a day; the large one $250 a day, though it leaves less before it
    large.overhead = 5'000;
    const Season result = season({small, large}, {}, {}, 20);
    CHECK(result.overhead == 7'600);
    CHECK(result.left_for_machines == 3'000 + 10'000 - 7'600);
    CHECK(result.jobs[0].profit() == 400);
    CHECK(result.by_day_pay == std::vector<std::size_t>{0, 1});
}

TEST_CASE("fixed cost that short hours do not earn agrees with the trade's arithmetic") {
    // trade practice, arithmetic only: 114,570 a year on 1,800 hours is 63.65 an hour; on 1,350 it
    // is 84.87, and 28,643 is short.
    SeasonMachine machine{"crawler", 114'570, 1'800};
    const Season result =
        season({job("a", day(2027, 5, 1), 100, 1'350, 1, 1, 1)}, {machine}, {}, 0);
    CHECK(result.machines[0].idle_hour == doctest::Approx(63.65));
    CHECK(result.machines[0].fixed_at_booked == doctest::Approx(84.87).epsilon(1e-4));
    CHECK(result.machines[0].not_earned == doctest::Approx(28'643).epsilon(1e-4));
}

TEST_CASE("a job over a month's end falls on both, and is billed later") {
    const Season result =
        season({job("a", day(2027, 5, 27), 10, 100, 50'000, 40'000, 90)}, crawler, {}, 30);
    REQUIRE(result.months.size() == 3);
    CHECK(result.months[0].month == 5);
    CHECK(result.months[0].hours.at("crawler") == doctest::Approx(50));
    CHECK(result.months[1].hours.at("crawler") == doctest::Approx(50));
    CHECK(result.months[1].spent == doctest::Approx(20'000));
    CHECK(result.months[1].billed == 0);
    CHECK(result.months[2].billed == doctest::Approx(50'000));
    CHECK(result.months[2].hours.empty());
}

TEST_CASE("a job over new year and a month without work are shown") {
    const Season result = season(
        {job("a", day(2027, 12, 30), 4, 40, 1, 1, 1), job("b", day(2028, 3, 1), 1, 10, 1, 1, 1)},
        crawler, {}, 0);
    REQUIRE(result.months.size() == 4);
    CHECK(result.months[0].year == 2027);
    CHECK(result.months[1].year == 2028);
    CHECK(result.months[2].job_days == 0);
}

TEST_CASE("two jobs on one machine on the same days clash, and not with two machines") {
    const std::vector<SeasonJob> jobs = {job("a", day(2027, 5, 1), 10, 100, 1, 1, 1),
                                         job("b", day(2027, 5, 8), 10, 100, 1, 1, 1),
                                         job("c", day(2027, 5, 18), 2, 10, 1, 1, 1)};
    const Season one = season(jobs, crawler, {}, 0);
    REQUIRE(one.clashes.size() == 1);
    CHECK(one.jobs[one.clashes[0].first].title == "a");
    CHECK(one.jobs[one.clashes[0].second].title == "b");
    CHECK(one.clashes[0].from == day(2027, 5, 8));
    CHECK(one.clashes[0].to == day(2027, 5, 10));
    CHECK(season(jobs, crawler, {{"crawler", 2}}, 0).clashes.empty());
}

TEST_CASE("the job that pays least for a day comes first") {
    const Season result = season({job("good", day(2027, 5, 1), 2, 10, 10'000, 5'000, 1),
                                  job("bad", day(2027, 6, 1), 10, 10, 20'000, 19'000, 1)},
                                 crawler, {}, 0);
    CHECK(result.jobs[result.by_day_pay[0]].title == "bad");
    CHECK(season({}, crawler, {}, 0).months.empty());
}

TEST_CASE("work falls on open days, and a machine is held from the first day to the last") {
    // Wednesday, June 30, 2027 to Wednesday, July 7: Sunday, July 4 and Monday, July 5 are closed,
    // so one of six days of work is in June.
    SeasonJob first = job("a", day(2027, 6, 30), 6, 60, 60'000, 48'000, 60);
    first.finish = day(2027, 7, 7);
    first.closed = {day(2027, 7, 4), day(2027, 7, 5)};
    const SeasonJob second = job("b", day(2027, 7, 6), 1, 10, 10'000, 8'000, 10);
    const Season result = season({first, second}, crawler, {}, 20);
    REQUIRE(result.months.size() == 2);
    CHECK(result.months[0].job_days == doctest::Approx(1));
    CHECK(result.months[0].acres == doctest::Approx(10));
    CHECK(result.months[1].job_days == doctest::Approx(5 + 1));
    CHECK(result.months[1].billed == 70'000); // July 27 and 26
    REQUIRE(result.clashes.size() == 1);
    CHECK(result.clashes[0].from == day(2027, 7, 6));
    CHECK(result.clashes[0].to == day(2027, 7, 6));
}

} // namespace season_test
