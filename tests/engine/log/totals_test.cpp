// What a log comes to, from rows whose sums are worked out by hand.
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/log/job_log.h"

namespace totals_test {

using namespace acre::engine;

namespace {

LogRow row(const std::string& date, const std::string& machine, double hours,
           std::map<std::string, double> counted = {}) {
    LogRow out;
    out.date = date;
    out.machine = machine;
    out.hours = hours;
    out.counted = std::move(counted);
    const auto fuel = out.counted.find("gallons");
    out.fuel = fuel == out.counted.end() ? 0 : fuel->second;
    return out;
}

JobLog log_of(std::vector<LogRow> rows) {
    JobLog log;
    log.rows = std::move(rows);
    log.columns = {"acres", "gallons"};
    log.fuels = {"gallons"};
    return log;
}

} // namespace

TEST_CASE("a day of work has hours or work; fuel and waiting make none") {
    JobLog log =
        log_of({row("2027-06-20", "Hazel", 0, {{"gallons", 400}}), // the evening before
                row("2027-06-21", "Hazel", 10, {{"acres", 12}, {"gallons", 300}}),
                row("2027-06-21", "Walt", 6, {{"acres", 7}}),
                row("2027-06-23", "Hazel", 0, {{"acres", 3}}),
                row("2027-06-24", "Hazel", 0, {{"acres", 0}}), row("2027-06-25", "Hazel", 0)});
    log.rows[5].down_hours = 8;
    const LogTotals sum = totals(log);
    CHECK(sum.days == 2);
    CHECK(sum.first == "2027-06-21");
    CHECK(sum.last == "2027-06-23");
    CHECK(sum.calendar_days == 3);
    CHECK(sum.hours == 16);
    CHECK(sum.machine_fuel == std::map<std::string, double>{{"Hazel", 700}});
    CHECK(sum.counted == std::map<std::string, double>{{"acres", 22}, {"gallons", 700}});
    CHECK(sum.machine_hours == std::map<std::string, double>{{"Hazel", 10}, {"Walt", 6}});
    CHECK(totals(log_of({row("2027-06-21", "Walt", 1, {{"gallons", 0.5}})})).machine_fuel ==
          std::map<std::string, double>{{"Walt", 0.5}});
    const LogTotals nothing = totals(log_of({row("2027-06-25", "Hazel", 0)}));
    CHECK(nothing.days == 0);
    CHECK(nothing.first.empty());
    CHECK(nothing.calendar_days == 0);
}

TEST_CASE("the price of fuel is a mean by gallons, of those whose price is said") {
    JobLog log = log_of({row("2027-06-21", "Hazel", 10, {{"gallons", 100}}),
                         row("2027-06-22", "Hazel", 10, {{"gallons", 300}}),
                         row("2027-06-23", "Hazel", 10, {{"gallons", 900}})});
    CHECK(totals(log).fuel_price == 0);
    log.rows[0].fuel_price = 4;
    log.rows[1].fuel_price = 5;
    CHECK(totals(log).fuel_price == doctest::Approx((400 + 1500) / 400.0));
}

TEST_CASE("hours down are told by their cause, and those that the crew waited once more") {
    JobLog log = log_of({row("2027-06-21", "Hazel", 10), row("2027-06-21", "Hazel", 0),
                         row("2027-06-22", "Hazel", 4), row("2027-06-23", "Hazel", 3)});
    log.rows[0].down_hours = 0.5;
    log.rows[0].down_cause = "rain";
    log.rows[1].down_hours = 2;
    log.rows[1].down_cause = "rain";
    log.rows[1].crew_waited = true;
    log.rows[2].down_hours = 1;
    log.rows[2].crew_waited = true;
    log.rows[2].hourly_hours = 1.5;
    log.rows[2].amounts = {{"tips", 40}};
    log.rows[3].down_cause = "wind"; // for no time
    log.rows[3].hourly_hours = 2;
    log.rows[3].amounts = {{"tips", 2}, {"permits", 7}};
    const LogTotals sum = totals(log);
    CHECK(sum.down == std::map<std::string, double>{{"rain", 2.5}, {"not said", 1}});
    CHECK(sum.waited == 3);
    CHECK(sum.hourly == 3.5);
    CHECK(sum.amounts == std::map<std::string, double>{{"tips", 42}, {"permits", 7}});
}

TEST_CASE("a day on which the meter ran and nobody wrote a figure is left to ask for") {
    const LogTotals sum = totals(
        log_of({row("2027-06-21", "Hazel", 10, {{"acres", 12}}),
                row("2027-06-21", "Walt", 6), // told by the other row
                row("2027-06-22", "Hazel", 5), row("2027-06-22", "Walt", 2),
                row("2027-06-23", "Hazel", 0), row("2027-06-24", "Hazel", 1, {{"acres", 0}})}));
    REQUIRE(sum.unlogged.size() == 2);
    CHECK(sum.unlogged.at("acres").days == 1);
    CHECK(sum.unlogged.at("acres").hours == 7);
    CHECK(sum.unlogged.at("gallons").days == 3);
    CHECK(sum.unlogged.at("gallons").hours == 24);
}

TEST_CASE("hours billed by the hour are no hours of the acres") {
    // 10 h at 1 ac/h, 6 h by the hour with a row of their own, and a day of nothing else.
    JobLog log = log_of({row("2027-06-21", "Hazel", 10, {{"acres", 10}, {"gallons", 400}}),
                         row("2027-06-21", "Hazel", 6, {{"gallons", 240}}),
                         row("2027-06-22", "Hazel", 8, {{"gallons", 320}})});
    log.rows[1].hourly_hours = 6;
    log.rows[2].hourly_hours = 8;
    const Learned pace = learned_per_hour(log, "acres");
    CHECK(pace.value == doctest::Approx(1));
    CHECK(pace.hours == doctest::Approx(10));
    CHECK(pace.days == 1);
    CHECK(learned_per_hour(log, "gallons").value == doctest::Approx(40));
    CHECK(totals(log).unlogged.empty());
    CHECK(totals(log).hours == doctest::Approx(24));
}

TEST_CASE("a machine's hours are found by its own name or the job's") {
    const LogTotals sum =
        totals(log_of({row("2027-06-21", "Walt", 6), row("2027-06-22", "WALT.rig", 3),
                       row("2027-06-21", "Hazel", 10)}));
    CHECK(hours_of(sum, "walt.rig") == 9);
    CHECK(hours_of(sum, "walt") == 6);
    CHECK(hours_of(sum, "hazel.rig") == 10);
    CHECK_FALSE(hours_of(sum, "rig"));
    CHECK_FALSE(hours_of(sum, "wal"));
}

TEST_CASE("a rate an hour is the ratio of the sums, as sure as the days agree") {
    // Days of 10, 10 and 20 h with 14, 22 and 36 ac: 72 / 40 = 1.8 an hour. Away from it -4, 4 and
    // 0; squares 32; √(32 / (3 × 2)) over the mean of 40 / 3 hours.
    const std::vector<LogRow> rows = {
        row("2027-06-21", "Hazel", 10, {{"acres", 14}}),
        row("2027-06-22", "Hazel", 4, {{"acres", 22}}),
        row("2027-06-22", "Walt", 6),
        row("2027-06-23", "Hazel", 20, {{"acres", 36}}),
        row("2027-06-24", "Hazel", 50),                  // without a figure: it teaches nothing
        row("2027-06-25", "Hazel", 0, {{"acres", 99}})}; // nor without hours
    const Learned learned = learned_per_hour(log_of(rows), "acres");
    CHECK(learned.days == 3);
    CHECK(learned.value == doctest::Approx(1.8));
    CHECK(learned.standard_error == doctest::Approx(std::sqrt(32.0 / 6) / (40.0 / 3)));
    // Two days agree or not; of one nobody knows.
    const Learned two = learned_per_hour(log_of({rows[0], rows[1], rows[2]}), "acres");
    CHECK(two.value == doctest::Approx(1.8));
    CHECK(two.standard_error == doctest::Approx(std::sqrt(32.0 / 2) / 10));
    const Learned one = learned_per_hour(log_of({rows[0]}), "acres");
    CHECK(one.days == 1);
    CHECK(one.value == doctest::Approx(1.4));
    CHECK(one.standard_error == 0);
    CHECK(learned_per_hour(log_of({rows[4], rows[5]}), "acres").days == 0);
}

} // namespace totals_test
