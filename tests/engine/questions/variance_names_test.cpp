// Logs that call their machines by other names than the job, or have hours and fuel where nobody
// expects them: nothing of a log is lost or counted twice.
#include <string>
#include <utility>

#include <doctest/doctest.h>

#include "engine/questions/variance.h"

namespace variance_names_test {

using namespace acre;
using namespace acre::engine;

namespace {

VarianceAnswer variance(const Quoted& quoted, const std::string& text) {
    const lang::Outcome<JobLog> log = read_job_log("log.csv", text, quoted.counted);
    REQUIRE(log);
    const lang::Outcome<VarianceAnswer> answer = ask(quoted, *log);
    REQUIRE(answer);
    return *answer;
}
CountedLine meter(const std::string& name, const std::string& machine, double hours,
                  std::vector<std::string> costs = {}) {
    return {name, "h", Counting::Meter, machine, hours, std::move(costs)};
}
QuotedCost by_hour(const std::string& name, const std::string& part, double hours) {
    return {name, "", part, "$/h", "h", 100, hours};
}

const std::string head = "date,machine,meter_start,meter_stop\n";

} // namespace

TEST_CASE("hours of a name that two machines have are shared between them") {
    Quoted quoted;
    quoted.counted = {meter("pulling.hours", "pulling.excavator", 30, {"excavator"}),
                      meter("pulling.loading", "pulling.loader", 10, {"loader"})};
    quoted.costs = {by_hour("excavator", "Pulling", 30), by_hour("loader", "Loading", 10)};
    // 8 h are of `pulling`, which may be either: 6 and 2.
    const VarianceAnswer answer =
        variance(quoted, head + "2027-01-01,Pulling,0,8\n2027-01-02,pulling.loader,20,25\n");
    CHECK(answer.rows[0].quantity == doctest::Approx(6));
    CHECK(answer.rows[1].quantity == doctest::Approx(2 + 5));
}

TEST_CASE("a machine of which no hours are quoted has those of its rows, and no others") {
    Quoted quoted;
    quoted.counted = {meter("pulling", "excavator", 30, {"excavators"}),
                      meter("loading", "loader", 0, {"loaders"})};
    quoted.costs = {by_hour("excavators", "Pulling", 30), by_hour("loaders", "Loading", 0)};
    const VarianceAnswer named =
        variance(quoted, head + "2027-01-01,excavator,0,20\n2027-01-01,loader,0,4\n");
    CHECK(named.rows[0].quantity == doctest::Approx(20));
    CHECK(named.rows[1].quantity == doctest::Approx(4));
    const VarianceAnswer misspelled =
        variance(quoted, head + "2027-01-01,excavator,0,20\n2027-01-02,excavatr,20,30\n");
    CHECK(misspelled.rows[0].quantity == doctest::Approx(30));
    CHECK(misspelled.rows[1].quantity == doctest::Approx(0));
}

TEST_CASE("the fuel of a machine is charged once, whatever costs have it") {
    Quoted quoted;
    quoted.counted = {meter("walt.hours", "walt.rig", 20, {"walt.operators"}),
                      meter("hazel.hours", "hazel.rig", 20, {"hazel.operators"}),
                      {"gallons", "gal", Counting::Fuel, "", 1400, {}}};
    const auto fuel = [](const char* name, double gallons) {
        return QuotedCost{name, "", "Ripping", "$/gal", "gal", 5, gallons};
    };
    quoted.costs = {by_hour("walt.operators", "Ripping", 20), fuel("walt.fuel", 600),
                    fuel("walt.idling", 200), fuel("hazel.fuel", 600)};
    const std::string rows = "date,machine,meter_start,meter_stop,gallons\n"
                             "2027-01-01,Walt,0,20,1000\n2027-01-01,Hazel,0,20,700\n";
    const VarianceAnswer two = variance(quoted, rows); // 6 to 2 of what Walt burned
    CHECK(two.rows[1].quantity == doctest::Approx(750));
    CHECK(two.rows[2].quantity == doctest::Approx(250));
    CHECK(two.rows[3].quantity == doctest::Approx(700));
    // A pump burns too, and no row is of it: all is shared as quoted, 1,700 gal to 1,400.
    quoted.costs[2] = fuel("pump", 200);
    const VarianceAnswer pump = variance(quoted, rows);
    CHECK(pump.rows[1].quantity == doctest::Approx(600 * 1700 / 1400.0));
    CHECK(pump.rows[2].quantity == doctest::Approx(200 * 1700 / 1400.0));
    CHECK(pump.rows[3].quantity == doctest::Approx(600 * 1700 / 1400.0));
}
TEST_CASE("what readings of a meter are off by is no hour of work") {
    Quoted quoted;
    quoted.counted = {meter("hours", "crawler", 20),
                      {"acres", "ac", Counting::Work, "", 20, {"ground"}}};
    quoted.costs = {{"ground", "", "Ripping", "$/ac", "ac", 10, 20}};
    // 104.9 - 100.3 is not quite 4.6, and no other hours have acres.
    const VarianceAnswer answer =
        variance(quoted, "date,meter_start,meter_stop,acres,hourly_hours,refused_at\n"
                         "2027-01-01,100.3,104.9,2,4.6,row 12\n2027-01-02,104.9,109.9,,,\n");
    CHECK(answer.rows[0].quantity == doctest::Approx(2));
}
TEST_CASE("parts whose hours come to those of two machines are of both") {
    Quoted quoted;
    quoted.counted = {meter("tractor_hours", "tractor", 16), meter("second_hours", "second", 16)};
    quoted.costs = {by_hour("disc", "Discing", 10), by_hour("float", "Floating", 6)};
    const VarianceAnswer answer =
        variance(quoted, head + "2027-01-01,tractor,0,20\n2027-01-01,second,0,12\n");
    CHECK(answer.rows[0].quantity == doctest::Approx(10));
    CHECK(answer.rows[1].quantity == doctest::Approx(6));
    CHECK_FALSE(answer.rows[0].as_quoted());
}

TEST_CASE("what goes by the hours of two machines is as quoted where one is not in the log") {
    Quoted quoted;
    quoted.counted = {meter("walt.hours", "walt.rig", 20, {"rig"}),
                      meter("grind_hours", "grinder", 30, {"grinder"})};
    quoted.costs = {by_hour("rig", "Work", 20), by_hour("grinder", "Work", 30),
                    by_hour("crew", "Work", 50)};
    const VarianceAnswer one = variance(quoted, head + "2027-01-01,Walt,0,24\n");
    CHECK(one.rows[0].quantity == doctest::Approx(24));
    CHECK(one.rows[1].as_quoted());
    CHECK(one.rows[2].as_quoted());
    const VarianceAnswer both =
        variance(quoted, head + "2027-01-01,Walt,0,24\n2027-01-02,Grinder,0,24\n");
    CHECK(both.rows[2].quantity == doctest::Approx(48));
}

TEST_CASE("the fuel of each of two machines is what its own rows have") {
    Quoted quoted;
    quoted.counted = {
        {"hazel.machine_hours", "h", Counting::Meter, "hazel.rig", 20, {"hazel.operators"}},
        {"walt.machine_hours", "h", Counting::Meter, "walt.rig", 20, {"walt.operators"}},
        {"gallons", "gal", Counting::Fuel, "", 1300, {}}};
    quoted.costs = {{"hazel.operators", "", "Ripping", "$/h", "h", 60, 20},
                    {"hazel.fuel", "", "Ripping", "$/gal", "gal", 5, 800},
                    {"hazel.tips", "", "Ripping", "$/h", "h", 20, 16},
                    {"walt.operators", "", "Ripping", "$/h", "h", 60, 20},
                    {"walt.fuel", "", "Ripping", "$/gal", "gal", 5, 500}};
    const std::string fuel_head = "date,machine,meter_start,meter_stop,gallons\n";
    const std::string hazel = "2027-01-01,Hazel,0,20,880\n2027-01-02,Hazel,20,25,220\n";
    const VarianceAnswer each = variance(quoted, fuel_head + hazel + "2027-01-01,Walt,0,20,400\n");
    // 25 h at 40 gal/h would be 1,000 gal: 5 h more, and 4 gal more in each of 25 h.
    CHECK(each.rows[1].quantity == doctest::Approx(1100));
    REQUIRE(each.rows[1].by_hours);
    CHECK(*each.rows[1].by_hours == doctest::Approx(5 * 40 * 5));
    CHECK(*each.rows[1].by_burn == doctest::Approx(100 * 5));
    CHECK(each.rows[2].quantity == doctest::Approx(16 * 25.0 / 20)); // in the ground
    CHECK(each.rows[4].quantity == doctest::Approx(400));
    CHECK(*each.rows[4].by_hours == doctest::Approx(0));
    CHECK(*each.rows[4].by_burn == doctest::Approx(-100 * 5));
    // Fuel that nobody can tell whose it was is shared out as quoted, 8 to 5.
    const VarianceAnswer shared = variance(quoted, fuel_head + hazel + "2027-01-01,,0,20,200\n");
    CHECK(shared.rows[1].quantity == doctest::Approx(800));
    CHECK(shared.rows[4].quantity == doctest::Approx(500));
}

} // namespace variance_names_test
