#include "engine/questions/season/season.h"

#include <chrono>
#include <memory>
#include <string>
#include <vector>

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
// Its direct cost carries the fixed cost of `hours`, at $115,000 a year over 1,800 h.
SeasonJob job(const char* title, long start, double days, double hours, double price, double cost,
              double acres) {
    SeasonJob result;
    result.title = title;
    result.earliest = start;
    result.days = days;
    result.price = price;
    result.cost = cost;
    result.acres = acres;
    result.fixed = hours * 115'000.0 / 1'800;
    result.uses = {{"crawler", 1, hours, {}}};
    return result;
}
const std::vector<SeasonMachine> crawler = {{"crawler", "", 115'000, 1'800, false}};

Season of(std::vector<SeasonJob> jobs, int crawlers = 1, long net_days = 0) {
    SeasonQuestion question;
    question.fleet["crawler"] = {crawlers, {}};
    question.net_days = net_days;
    return season(std::move(jobs), crawler, question);
}

} // namespace

TEST_CASE("hours booked against hours assumed, by hand") {
    const Season result = of({job("a", day(2027, 5, 1), 10, 150, 100'000, 80'000, 150),
                              job("b", day(2027, 6, 1), 20, 300, 180'000, 150'000, 300)});
    REQUIRE(result.machines.size() == 1);
    const MachineRow& row = result.machines[0];
    REQUIRE(row.units.size() == 1);
    CHECK(row.booked == doctest::Approx(450));
    CHECK(row.share == doctest::Approx(0.25));
    CHECK(row.idle_hour == doctest::Approx(115'000.0 / 1800));
    CHECK(row.not_covered == doctest::Approx(115'000 * 0.75));
    CHECK(row.units[0].fixed_at_booked == doctest::Approx(115'000.0 / 450));
    // What covers the year: 450 acres leave 50,000 after all direct cost, of which 28,750 went to
    // fixed cost already.
    CHECK(result.cover.left == doctest::Approx(50'000 + 28'750));
    CHECK(result.cover.acres == doctest::Approx(450 * 115'000.0 / 78'750.0));
    CHECK(result.cover.hours == doctest::Approx(450 * 115'000.0 / 78'750.0));
    CHECK(result.cover.price == doctest::Approx(280'000 * 115'000.0 / 78'750.0));
}

TEST_CASE("a machine that is owned costs its year, each of them once") {
    const std::vector<SeasonJob> jobs = {job("a", day(2027, 5, 1), 10, 150, 100'000, 80'000, 150)};
    const Season one = of(jobs), three = of(jobs, 3);
    CHECK(one.cover.fixed == 115'000);
    CHECK(three.cover.fixed == 345'000);
    CHECK(three.cover.acres == doctest::Approx(3 * one.cover.acres));
    REQUIRE(three.machines[0].units.size() == 3);
    CHECK(three.machines[0].units[0].booked == 150);
    CHECK(three.machines[0].units[1].booked == 0);
    CHECK(three.machines[0].units[1].not_covered == 115'000);
    CHECK(three.machines[0].units[2].name == "3");
    CHECK(three.machines[0].share == doctest::Approx(150.0 / 5'400));
}

TEST_CASE("a hired machine costs its jobs, no year of the firm, and no job waits for it") {
    std::vector<SeasonJob> jobs = {job("a", day(2027, 5, 1), 10, 150, 100'000, 80'000, 150),
                                   job("b", day(2027, 5, 1), 10, 100, 90'000, 70'000, 100)};
    for (SeasonJob& one : jobs) { // half of the fixed cost by hand, and 5,000 for the hired one
        one.uses[0].fixed = one.fixed;
        one.fixed += 5'000;
        one.uses.push_back({"hired", 1, 40, {}, 5'000});
    }
    jobs[1].uses.erase(jobs[1].uses.begin()); // the hired one alone
    jobs[1].fixed = 5'000;
    const std::vector<SeasonMachine> both = {crawler[0], {"hired", "", 90'000, 900, false}};
    SeasonQuestion question;
    question.fleet["hired"] = {0, {}};
    const Season hired = season(jobs, both, question);
    REQUIRE(hired.machines.size() == 1);
    CHECK(hired.machines[0].machine.name == "crawler");
    REQUIRE(hired.hired.size() == 1);
    CHECK(hired.hired[0].name == "hired");
    CHECK(hired.clashes.listed.empty());
    CHECK(hired.cover.fixed == 115'000);
    // 20,000 and 20,000 after all direct cost; 150 h of the crawler carry 115,000 / 1,800 each.
    CHECK(hired.cover.left == doctest::Approx(40'000 + 150 * 115'000.0 / 1'800));
    const Season owned = season(jobs, both, {});
    CHECK(owned.machines.size() == 2);
    CHECK(owned.clashes.listed.size() == 1);
    CHECK(owned.cover.fixed == 205'000);
    CHECK(owned.cover.left == doctest::Approx(50'000 + 150 * 115'000.0 / 1'800));
}

TEST_CASE("the office is covered too: what the jobs carry, or what it costs") {
    SeasonJob one = job("a", day(2027, 5, 1), 10, 180, 100'000, 80'000, 150);
    one.overhead = 6'000;
    SeasonQuestion question;
    const Season carried = season({one}, crawler, question);
    CHECK(carried.cover.carried);
    CHECK(carried.cover.need() == 121'000);
    // 20,000 and the 11,500 of the fixed cost that are in the direct cost.
    CHECK(carried.cover.left == doctest::Approx(31'500));
    question.overhead = 90'000;
    const Season said = season({one}, crawler, question);
    CHECK(said.cover.need() == 205'000);
    CHECK(said.cover.acres == doctest::Approx(150 * 205'000.0 / 31'500.0));
    CHECK(said.cover.over() == doctest::Approx(31'500 - 205'000));
}

TEST_CASE("profit a day is after overhead, by days of work") {
    SeasonJob small = job("a", day(2027, 5, 1), 4, 0, 10'000, 7'000, 150);
    SeasonJob large = job("b", day(2027, 6, 1), 20, 0, 80'000, 70'000, 300);
    small.overhead = 2'600; // $100 a day; the large one $250 a day, though it leaves less before it
    large.overhead = 5'000;
    const Season result = of({small, large});
    CHECK(result.sums.overhead == 7'600);
    CHECK(result.sums.profit() == 3'000 + 10'000 - 7'600);
    CHECK(result.jobs[0].profit_a_day() == 100);
    CHECK(result.jobs[1].profit_a_day() == 250);
    CHECK(result.by_day_pay == std::vector<std::size_t>{0, 1});
}

TEST_CASE("fixed cost that short hours do not earn agrees with the trade's arithmetic") {
    // trade practice, arithmetic only: 114,570 a year on 1,800 hours is 63.65 an hour; on 1,350 it
    // is 84.87, and 28,643 is short.
    const SeasonMachine machine{"crawler", "", 114'570, 1'800, false};
    const Season result =
        season({job("a", day(2027, 5, 1), 100, 1'350, 1, 1, 1)}, {machine}, SeasonQuestion{});
    CHECK(result.machines[0].idle_hour == doctest::Approx(63.65));
    CHECK(result.machines[0].units[0].fixed_at_booked == doctest::Approx(84.87).epsilon(1e-4));
    CHECK(result.machines[0].units[0].not_covered == doctest::Approx(28'643).epsilon(1e-4));
}

TEST_CASE("a job over a month's end falls on both; it is billed when done and paid later") {
    const Season result = of({job("a", day(2027, 5, 27), 10, 100, 50'000, 40'000, 90)}, 1, 30);
    REQUIRE(result.months.size() == 3);
    CHECK(result.months[0].month == 5);
    CHECK(result.months[0].hours.at("crawler") == doctest::Approx(50));
    CHECK(result.months[1].hours.at("crawler") == doctest::Approx(50));
    CHECK(result.months[1].spent == doctest::Approx(20'000));
    CHECK(result.months[1].billed == 50'000);
    CHECK(result.months[1].received == 0);
    CHECK(result.months[2].received == 50'000);
    CHECK(result.months[2].hours.empty());
    CHECK(result.months[1].left_so_far == doctest::Approx(result.cover.left));
}

TEST_CASE("a job over new year and a month without work are shown") {
    const Season result = of(
        {job("a", day(2027, 12, 30), 4, 40, 1, 1, 1), job("b", day(2028, 3, 1), 1, 10, 1, 1, 1)});
    REQUIRE(result.months.size() == 4);
    CHECK(result.months[0].year == 2027);
    CHECK(result.months[1].year == 2028);
    CHECK(result.months[2].job_days == 0);
    CHECK(season({}, crawler, SeasonQuestion{}).months.empty());
}

TEST_CASE("every pair that wants one machine on the same days is a clash") {
    // a from 1 to 10, b from 8 to 17, c from 9 to 10, d after them.
    const std::vector<SeasonJob> jobs = {
        job("a", day(2027, 5, 1), 10, 100, 1, 1, 1), job("b", day(2027, 5, 8), 10, 100, 1, 1, 1),
        job("c", day(2027, 5, 9), 2, 10, 1, 1, 1), job("d", day(2027, 5, 18), 2, 10, 1, 1, 1)};
    const Season one = of(jobs);
    std::vector<std::string> pairs;
    for (const Clash& clash : one.clashes.listed)
        pairs.push_back(one.jobs[clash.first].title + one.jobs[clash.second].title);
    CHECK(pairs == std::vector<std::string>{"ab", "ac", "bc"});
    CHECK(one.clashes.listed[0].from == day(2027, 5, 8));
    CHECK(one.clashes.listed[0].to == day(2027, 5, 10));
    CHECK(one.clashes.listed[0].wanted == 3);
    // Of two crawlers three are wanted on the 9th and 10th alone.
    const Season two = of(jobs, 2);
    REQUIRE(two.clashes.listed.size() == 3);
    CHECK(two.clashes.listed[0].from == day(2027, 5, 9));
    CHECK(of(jobs, 3).clashes.listed.empty());
}

TEST_CASE("a job that wants more than there are clashes by itself, and has no place in a plan") {
    SeasonJob wide = job("wide", day(2027, 5, 1), 3, 300, 90'000, 60'000, 200);
    wide.uses[0].units = 3;
    const Season result = of({wide}, 2);
    REQUIRE(result.clashes.listed.size() == 1);
    CHECK(result.clashes.listed[0].second == Clash::none);
    CHECK(result.clashes.listed[0].wanted == 3);
    CHECK(result.clashes.listed[0].owned == 2);
    REQUIRE(result.plan);
    CHECK_FALSE(result.plan->jobs[0].fits);
    CHECK(of({wide}, 3).clashes.listed.empty());
}

TEST_CASE("a second crawler pays by the jobs that fit with it alone") {
    // Both must be done within eleven days, and take ten: one crawler does one of them. Each leaves
    // 20,000 and the fixed cost in its direct cost, 160 h at 115,000 / 1,800.
    SeasonJob first = job("a", day(2027, 5, 1), 10, 160, 100'000, 80'000, 100);
    SeasonJob second = job("b", day(2027, 5, 2), 10, 160, 110'000, 80'000, 100);
    first.latest = second.latest = day(2027, 5, 12);
    SeasonQuestion question;
    question.another = "crawler";
    const Season result = season({first, second}, crawler, question);
    REQUIRE(result.plan);
    CHECK_FALSE(result.plan->jobs[0].fits); // it leaves less than the other
    CHECK(result.plan->jobs[1].fits);
    REQUIRE(result.another);
    CHECK(result.another->answered);
    CHECK(result.another->fit_now == std::vector<std::size_t>{0});
    const double in_cost = 160 * 115'000 / 1'800.0;
    CHECK(result.another->gained == doctest::Approx(20'000 + in_cost));
    CHECK(result.another->fixed == 115'000);
    // 50,000 and twice the fixed cost over 200 acres.
    CHECK(result.another->acres == doctest::Approx(115'000 / ((50'000 + 2 * in_cost) / 200)));
}

TEST_CASE("jobs that do not fit by the last day say on which day they would be done") {
    // Ten open days each, from the first of June on: one after the other, 30 days.
    std::vector<SeasonJob> jobs;
    for (const char* title : {"a", "b", "c"})
        jobs.push_back(job(title, day(2027, 6, 1), 10, 100, 100'000, 80'000, 100));
    Season result = of(jobs);
    REQUIRE(result.plan);
    CHECK(result.plan->left_out == 2);
    CHECK(result.plan->all_by == day(2027, 6, 30));
    // One that has a latest day of its own and does not fit is no matter of more days.
    jobs[2].latest = day(2027, 6, 10);
    jobs[2].price = 300'000;
    result = of(jobs);
    REQUIRE(result.plan);
    CHECK(result.plan->left_out == 2);
    CHECK(result.plan->all_by == day(2027, 6, 30));
    jobs.pop_back();
    for (SeasonJob& each : jobs)
        each.latest = day(2027, 6, 10);
    result = of(jobs);
    REQUIRE(result.plan);
    CHECK(result.plan->left_out == 1);
    CHECK(!result.plan->all_by);
}

TEST_CASE("an offer counts by its chance, and a clash with it may be") {
    SeasonJob sure = job("sure", day(2027, 5, 1), 10, 100, 50'000, 40'000, 90);
    SeasonJob offer = job("offer", day(2027, 5, 8), 10, 100, 50'000, 40'000, 90);
    offer.chance = 0.4;
    const Season result = of({sure, offer});
    CHECK(result.sums.price == doctest::Approx(70'000));
    CHECK(result.sums.acres == doctest::Approx(126));
    CHECK(result.machines[0].booked == doctest::Approx(140));
    REQUIRE(result.clashes.listed.size() == 1);
    CHECK(result.clashes.listed[0].may_be);
}

TEST_CASE("one customer with the same boundary, acres or days may be one work told twice") {
    SeasonJob a = job("a", day(2027, 5, 1), 10, 100, 1, 1, 118);
    SeasonJob b = job("b", day(2027, 7, 1), 10, 100, 1, 1, 118);
    SeasonJob c = job("c", day(2027, 7, 5), 10, 100, 1, 1, 90);
    SeasonJob d = job("d", day(2027, 9, 1), 10, 100, 1, 1, 0);
    SeasonJob other = job("other", day(2027, 5, 1), 10, 100, 1, 1, 118);
    for (SeasonJob* each : {&a, &b, &c, &d})
        each->who = "Quillon";
    other.who = "Pell";
    a.boundary = d.boundary = "fields/home.geojson";
    const Season result = of({a, b, c, d, other});
    std::vector<std::string> pairs;
    for (const Double& pair : result.doubles.listed)
        pairs.push_back(result.jobs[pair.first].title + result.jobs[pair.second].title +
                        (pair.boundary ? " boundary" : "") + (pair.acres ? " acres" : "") +
                        (pair.dates ? " dates" : ""));
    CHECK(pairs == std::vector<std::string>{"ab acres", "ad boundary", "bc dates"});
}

TEST_CASE("work falls on open days, and a machine is held from the first day to the last") {
    // Wednesday, June 30, 2027 to Wednesday, July 7: Sunday, July 4 and Monday, July 5 are closed,
    // so one of six days of work is in June.
    SeasonJob first = job("a", day(2027, 6, 30), 6, 60, 60'000, 48'000, 60);
    first.calendar = std::make_shared<const WorkCalendar>(std::vector<acre::lang::ast::Closed>{
        {0, {}, {}, {}}, {{}, {2027, 7, 5, {}}, {2027, 7, 5, {}}, {}}});
    const SeasonJob second = job("b", day(2027, 7, 6), 1, 10, 10'000, 8'000, 10);
    const Season result = of({first, second}, 1, 20);
    REQUIRE(result.months.size() == 2);
    CHECK(result.months[0].job_days == doctest::Approx(1));
    CHECK(result.months[0].acres == doctest::Approx(10));
    CHECK(result.months[1].job_days == doctest::Approx(5 + 1));
    CHECK(result.months[1].billed == 70'000);   // July 7 and 6
    CHECK(result.months[1].received == 70'000); // July 27 and 26
    REQUIRE(result.clashes.listed.size() == 1);
    CHECK(result.clashes.listed[0].from == day(2027, 7, 6));
    CHECK(result.clashes.listed[0].to == day(2027, 7, 6));
}

TEST_CASE("a machine is there in the stages that use it, and free while the ground dries") {
    SeasonJob slow = job("slow", day(2027, 5, 3), 0, 50, 1, 1, 1);
    slow.stages = {{4, false}, {20, true}, {2, false}};
    slow.uses = {{"crawler", 1, 60, {0, 2}}};
    const SeasonJob between = job("between", day(2027, 5, 10), 5, 50, 1, 1, 1);
    const Season result = of({slow, between});
    CHECK(result.clashes.listed.empty());
    CHECK(result.jobs[0].dated.held[0] ==
          std::vector<DaySpan>{{day(2027, 5, 3), day(2027, 5, 6)},
                               {day(2027, 5, 27), day(2027, 5, 28)}});
    CHECK(result.jobs[0].work_days() == 6);
}

} // namespace season_test
