// Whose row it is: of which machine, of which service.
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/log/job_log.h"
#include "engine/log/log_checks.h"
#include "engine/log/row_work.h"

namespace row_work_test {

using namespace acre;
using namespace acre::engine;

namespace {

// Old trees out: 40 acres, pulled in 40 h of two excavators, ground in 20 h.
const std::vector<CountedLine> pulling = {
    {"excavator_hours", "h", Counting::Meter, "excavator", 40, {}},
    {"grind_hours", "h", Counting::Meter, "grinder", 20, {}},
    {"area", "ac", Counting::Work, "", 40, {}},
    {"gallons", "gal", Counting::Fuel, "", 900, {}}};
// Leveling and planting with one tractor.
const std::vector<CountedLine> services = {
    {"leveling.level_hours", "h", Counting::Meter, "tractor", 10, {}},
    {"leveling.yards", "cy", Counting::Work, "", 1'000, {}},
    {"planting.tractor_hours", "h", Counting::Meter, "tractor", 20, {}},
    {"planting.trees", "tree", Counting::Work, "", 2'000, {}}};

JobLog read(const std::vector<CountedLine>& counted, const std::string& text) {
    lang::Outcome<JobLog> log = read_job_log("log.csv", text, counted);
    REQUIRE(log.value.has_value());
    return std::move(*log);
}
JobLog pulled(const std::string& rows) {
    return read(pulling, "date,machine,meter_start,meter_stop,area,gallons\n" + rows);
}
std::string doubts(const JobLog& log, const std::vector<CountedLine>& counted) {
    LogContext context;
    context.counted = counted;
    std::string titles;
    const lang::Diagnostics said = check_log(log, context);
    for (const lang::Diagnostic& one : said.all())
        titles += one.title + "\n";
    return titles;
}
bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE(
    "a machine with a number is one of those that the job calls so, with a meter of its own") {
    const LogTotals sum = totals(pulled("2027-09-13,Excavator 1,0,9,20,60\n"
                                        "2027-09-13,excavator #2,5,13,,58\n"
                                        "2027-09-14,Excavators,9,12,20,20\n"
                                        "2027-09-15,Grinder,0,8,,300\n"));
    CHECK(hours_of(sum, "excavator") == doctest::Approx(9 + 8 + 3));
    CHECK(hours_of(sum, "grinder") == doctest::Approx(8));
    CHECK(sum.machine_fuel.at("excavator") == doctest::Approx(60 + 58 + 20));
    // Another word, or a longer one, is another machine.
    const LogTotals other = totals(pulled("2027-09-13,Excavator bucket,0,9,20,60\n"
                                          "2027-09-13,grinders-helper,0,9,,60\n"));
    CHECK_FALSE(hours_of(other, "excavator").has_value());
    CHECK_FALSE(hours_of(other, "grinder").has_value());
    // What is called exactly so goes before a number.
    const std::vector<CountedLine> two = {{"h1", "h", Counting::Meter, "rig", 10, {}},
                                          {"h2", "h", Counting::Meter, "rig2", 10, {}}};
    const LogTotals exact = totals(read(two, "date,machine,meter_start,meter_stop\n"
                                             "2027-09-13,rig2,0,9\n"));
    CHECK(hours_of(exact, "rig2") == doctest::Approx(9));
    CHECK_FALSE(hours_of(exact, "rig").has_value());
}

TEST_CASE("a machine that never does a work leaves its cell empty for good reason") {
    const JobLog log = pulled("2027-09-13,Excavator,0,9,20,60\n2027-09-14,Excavator,9,18,20,62\n"
                              "2027-09-15,Grinder,0,8,,300\n2027-09-16,Grinder,8,16,,300\n");
    CHECK(totals(log).unlogged.empty());
    CHECK(filled(totals(log), "area") == 1);
    CHECK(doubts(log, pulling).empty());
    CHECK(learned_per_hour(log, "area").value == doctest::Approx(40.0 / 18));
    // A day of the excavator without its acres is one that nobody wrote down: 9 h in 18.
    const JobLog left = pulled("2027-09-13,Excavator,0,9,20,60\n2027-09-14,Excavator,9,18,20,62\n"
                               "2027-09-15,Excavator,18,27,,60\n2027-09-16,Grinder,8,16,,300\n");
    CHECK(totals(left).unlogged.at("area").hours == doctest::Approx(9));
    CHECK(filled(totals(left), "area") == doctest::Approx(27.0 / 18));
    CHECK(has(doubts(left, pulling), "column `area`: the meter ran 9.0 h and this is empty"));
}

TEST_CASE("the days of one service are none of another's") {
    const JobLog log = read(services, "date,machine,meter_start,meter_stop,yards,trees\n"
                                      "2027-09-13,Tractor,0,9,900,\n"
                                      "2027-09-14,Tractor,9,18,,1000\n"
                                      "2027-09-15,Tractor,18,27,,1100\n");
    CHECK(log.columns == std::set<std::string, std::less<>>{"leveling.yards", "planting.trees"});
    CHECK(totals(log).unlogged.empty());
    CHECK(totals(log).of_no_service == 0);
    // A pace of its own: 900 in 9 h are far from 33 that 30 h for all of it would make.
    CHECK(doubts(log, services).empty());
    // A day without any work is of nobody knows which service.
    const JobLog blank = read(services, "date,machine,meter_start,meter_stop,yards,trees\n"
                                        "2027-09-13,Tractor,0,9,900,\n"
                                        "2027-09-14,Tractor,9,18,,1000\n"
                                        "2027-09-15,Tractor,18,26,,\n");
    CHECK(totals(blank).unlogged.empty());
    CHECK(totals(blank).of_no_service == doctest::Approx(8));
}

TEST_CASE("of a job with one machine another one in its log is told") {
    const std::vector<CountedLine> hired = {{"hours", "h", Counting::Meter, "tractor", 40, {}}};
    const std::string head = "date,machine,meter_start,meter_stop\n2027-09-13,Tractor,0,9\n";
    CHECK(has(doubts(read(hired, head + "2027-09-14,Water truck,80,92\n"), hired),
              "column `machine`: the quote has no machine `Water truck`: tractor"));
    CHECK(doubts(read(hired, head + "2027-09-14,,9,18\n"), hired).empty());
    // A log that calls the machine by its own name says nothing of others.
    CHECK(doubts(read(hired, "date,machine,meter_start,meter_stop\n2027-09-13,Juno,0,9\n"), hired)
              .empty());
}

} // namespace row_work_test
