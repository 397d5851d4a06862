// What a log measures of a job's readings.
#include <string>

#include <doctest/doctest.h>

#include "engine/learning/measures.h"

namespace measures_test {

using namespace acre::engine;

namespace {

Measure measured(Tells tells, const std::string& name, const std::string& rows) {
    const acre::lang::Outcome<JobLog> log =
        read_job_log("log.csv", "date,meter_start,meter_stop,acres,gallons\n" + rows,
                     {{"machine_hours", "h", Counting::Meter, "crawler", 100, {}},
                      {"acres", "ac", Counting::Work, "", 100, {}},
                      {"gallons", "gal", Counting::Fuel, "", 4000, {}}});
    REQUIRE(log);
    JobReadings readings;
    Reading& reading = readings.readings.emplace_back();
    reading.tells = tells;
    reading.name = name;
    return measures_of(*log, readings, WorkCalendar({})).front();
}

} // namespace

TEST_CASE("hours of a day on which nobody wrote the acres down slow no pace") {
    // 15 acres in 15 h and 20 in 20; of the 18 h between nobody knows. The gallons are all there.
    const std::string rows = "2027-06-01,100,115,15,600\n"
                             "2027-06-02,115,133,,720\n"
                             "2027-06-03,133,153,20,800\n";
    const Measure pace = measured(Tells::Pace, "acres", rows);
    CHECK(pace.known);
    CHECK(pace.value == doctest::Approx(1));
    CHECK(pace.hours == doctest::Approx(35));
    const Measure burn = measured(Tells::Burn, "gallons", rows);
    CHECK(burn.value == doctest::Approx(40));
    CHECK(burn.hours == doctest::Approx(53));
}

TEST_CASE("a log without the figure measures nothing of it") {
    const std::string rows = "2027-06-01,100,115,,600\n2027-06-02,115,133,0,720\n";
    CHECK(!measured(Tells::Pace, "acres", rows).known);
}

} // namespace measures_test
