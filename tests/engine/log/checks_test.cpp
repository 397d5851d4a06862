// What a bookkeeper finds in a log that can be read: each doubt at its row and column.
#include "engine/log/log_checks.h"

#include <doctest/doctest.h>

#include <string>

namespace checks_test {

using namespace acre;
using namespace acre::engine;

namespace {

const std::string head = "date,machine,meter_start,meter_stop,acres,gallons,fuel_price,down_hours,"
                         "down_cause,invoice,amount.tips";

LogContext context() {
    LogContext about;
    about.issued = "2027-05-10";
    about.start = "2027-06-21";
    about.finish = "2027-06-29";
    about.fuel_price = 4.60;
    about.counted = {{"machine_hours", "h", Counting::Meter, "crawler", 120, {}},
                     {"acres", "ac", Counting::Work, "", 120, {}},
                     {"gallons", "gal", Counting::Fuel, "", 4800, {}}};
    about.others = {{"2027-004", "Hazel", "2027-06-01", 50, 70},
                    {"2027-009", "hazel", "2027-07-20", 300, 320}};
    return about;
}

std::vector<std::string> doubts(const std::string& rows, const LogContext& about = context()) {
    const lang::Outcome<JobLog> log = read_job_log("log.csv", head + "\n" + rows, about.counted);
    REQUIRE(log);
    std::vector<std::string> titles;
    const lang::Diagnostics found = check_log(*log, about);
    for (const lang::Diagnostic& said : found.all()) {
        CHECK(said.code == lang::Code::L837);
        CHECK(said.severity() == lang::Severity::Warning);
        titles.push_back(said.title);
    }
    return titles;
}

// The one doubt that there is begins so.
void one(const std::string& rows, const std::string& words) {
    CAPTURE(rows);
    const std::vector<std::string> found = doubts(rows);
    for (const std::string& title : found)
        CAPTURE(title);
    REQUIRE(found.size() == 1);
    CHECK_MESSAGE(found[0].starts_with(words), found[0]);
}

const std::string day_1 = "2027-06-21,Hazel,100,120,20,800,4.60,,,,\n";

} // namespace

TEST_CASE("a log in order gives no doubt") {
    CHECK(doubts(day_1 + "2027-06-22,Hazel,120,140,21,790,4.65,2,rain,,\n").empty());
}

TEST_CASE("each doubt stands at its row and column") {
    one(day_1 + "2027-06-21,Hazel,120,123,3,120,4.60,2,rain,,\n",
        "row 3, column `down_hours`: 25.0 hours of work and down time on one day");
    one(day_1 + "2027-06-22,Hazel,131,150,20,780,4.60,,,,\n",
        "row 3, column `meter_start`: the meter ran 11.0 h since row 2");
    one("2027-06-22,Hazel,100,120,20,800,4.60,,,,\n2027-06-21,Hazel,120,140,20,800,4.60,,,,\n",
        "row 3, column `date`: an earlier day than that of row 2");
    one("2027-06-21,Hazel,60,80,20,800,4.60,,,,\n",
        "row 2, column `meter_start`: these meter hours are also in the log of quote 2027-004");
    one("2027-06-21,Hazel,310,330,20,800,4.60,,,,\n",
        "row 2, column `meter_start`: these meter hours are also in the log of quote 2027-009");
    one("2027-06-21,Hazel,20,40,20,800,4.60,,,,\n",
        "row 2, column `meter_start`: the meter does not go with its readings in the log of quote "
        "2027-004");
    one("2027-05-01,Hazel,20,40,20,800,4.60,,,,\n",
        "row 2, column `date`: before the quote was issued, May 10, 2027");
    one("2027-09-01,Hazel,350,370,20,800,4.60,,,,\n",
        "row 2, column `date`: long after the last day planned, June 29, 2027");
    one("2027-06-21,Hazel,100,120,20,800,6.40,,,,\n",
        "row 2, column `fuel_price`: fuel at $6.40 a gallon; the quote reckons $4.60");
    one("2027-06-21,Hazel,100,120,20,,,,,,\n",
        "row 2, column `gallons`: the meter ran 20.0 h and this is empty");
    one("2027-06-21,Hazel,100,120,,800,4.60,,,,\n",
        "row 2, column `acres`: the meter ran 20.0 h and this is empty");
    one("2027-06-21,Hazel,100,120,2,800,4.60,,,,\n",
        "row 2, column `acres`: 2 ac in 20.0 h; the quote expects about 20 ac");
    one("2027-06-21,Hazel,100,120,20,8000,4.60,,,,\n",
        "row 2, column `gallons`: 8,000 gal in 20.0 h; the quote expects about 800 gal");
    one(day_1 + "2027-06-22,Hazel,120,144,60,900,4.60,,,,\n" +
            "2027-06-23,Hazel,144,168,60,900,4.60,,,,\n",
        "row 4, column `acres`: the log comes to 140 ac, the quote to 120 ac");
    one("2027-06-21,Hazel,100,120,20,800,4.60,3,,,\n",
        "row 2, column `down_hours`: hours down without a cause");
    one("2027-06-21,Hazel,100,120,20,800,4.60,,,INV-7,95\n"
        "2027-06-22,Hazel,120,140,20,800,4.60,,,inv 7,95\n",
        "row 3, column `invoice`: invoice `inv 7` with the same money as in row 2");
}

TEST_CASE("what is just in order is not doubted, and what is just out of it is, be it ever short") {
    CHECK(doubts("2027-05-10,Hazel,20,40,20,800,4.60,,,,\n",
                 [] {
                     LogContext unplanned = context(); // on the day of the quote itself
                     unplanned.start = unplanned.finish = "";
                     return unplanned;
                 }())
              .empty());
    // An hour of the meter that no row has may be a way home.
    CHECK(doubts(day_1 + "2027-06-22,Hazel,121,140,20,780,4.60,,,,\n").empty());
    one(day_1 + "2027-06-22,Hazel,121.5,122,0.5,20,4.60,,,,\n",
        "row 3, column `meter_start`: the meter ran 1.5 h since row 2");
    // A third and three times of what 12 h are expected to do.
    CHECK(doubts("2027-06-21,Hazel,100,112,4,480,4.60,,,,\n").empty());
    CHECK(doubts("2027-06-21,Hazel,100,112,36,480,4.60,,,,\n").empty());
    one("2027-06-21,Hazel,100,112,0.5,480,4.60,,,,\n",
        "row 2, column `acres`: 0.5 ac in 12.0 h; the quote expects about 12 ac");
    one(day_1 + "2027-06-22,Hazel,120,140,20,800,4.60,0.5,,,\n",
        "row 3, column `down_hours`: hours down without a cause");
    LogContext small = context();
    small.counted[1].quoted = 1; // 120 h for an acre: 0.17 of it in 20 h
    CHECK(doubts("2027-06-21,Hazel,100,120,0.6,800,4.60,,,,\n", small).size() == 1);
}

TEST_CASE("work by the hour is doubted beside acres in the same row, and not beside its fuel") {
    const auto found = [](const std::string& rows) {
        const LogContext about = context();
        const lang::Outcome<JobLog> log = read_job_log(
            "log.csv",
            "date,machine,meter_start,meter_stop,acres,gallons,hourly_hours,refused_at\n" + rows,
            about.counted);
        REQUIRE(log);
        std::string titles;
        const lang::Diagnostics doubted = check_log(*log, about);
        for (const lang::Diagnostic& said : doubted.all())
            titles += said.title + "\n";
        return titles;
    };
    CHECK(found("2027-06-21,Hazel,100,110,9.5,400,0.5,row 12\n") ==
          "row 2, column `hourly_hours`: hours by the hour and `acres` in one row: both are "
          "billed\n");
    CHECK(found("2027-06-21,Hazel,100,110,0,400,10,row 12\n") == "");
}

TEST_CASE("readings of a log are those on which its meter ran") {
    LogContext about = context();
    const lang::Outcome<JobLog> log = read_job_log("log.csv",
                                                   head + "\n" + day_1 +
                                                       "2027-06-22,Hazel,120,120.5,1,20,,,,,\n"
                                                       "2027-06-23,Hazel,120.5,120.5,0,0,,,,,\n"
                                                       "2027-06-24,Hazel,,,,,,3,rain,,\n",
                                                   about.counted);
    REQUIRE(log);
    const auto readings = readings_of(*log, "2027-001");
    REQUIRE(readings.size() == 2);
    CHECK(readings[1].quote == "2027-001");
    CHECK(readings[1].machine == "Hazel");
    CHECK(readings[1].date == "2027-06-22");
    CHECK(readings[1].start == 120);
    CHECK(readings[1].stop == 120.5);
}

TEST_CASE("a machine that the quote does not have is a slip where the log names all that it has") {
    LogContext two = context();
    two.counted[0] = {"hazel.machine_hours", "h", Counting::Meter, "hazel.rig", 60, {}};
    two.counted.push_back({"walt.machine_hours", "h", Counting::Meter, "walt.rig", 60, {}});
    const std::string both = day_1 + "2027-06-21,Walt,400,420,20,800,4.60,,,,\n";
    CHECK(doubts(both, two).empty());
    CHECK(doubts(both + "2027-06-22,Wlat,420,440,20,800,4.60,,,,\n", two) ==
          std::vector<std::string>{
              "row 4, column `machine`: the quote has no machine `Wlat`: hazel, walt"});
    CHECK(
        doubts(both + "2027-06-22,,420,440,20,800,4.60,,,,\n", two) ==
        std::vector<std::string>{"row 4, column `machine`: the quote counts several machines, and "
                                 "none is named: hazel, walt"});
    // Who is called otherwise all along is the one that is left.
    CHECK(doubts(day_1 + "2027-06-21,Old Walt,400,420,20,800,4.60,,,,\n", two).empty());
}

TEST_CASE("a row without a meter that says the same as another is doubted") {
    one(day_1 + "2027-06-22,,,,,,,3,grower,,\n2027-06-22,,,,,,,3,Grower,,\n",
        "row 4, column `date`: says the same as row 3");
    one(day_1 + "2027-06-22,,,,,,,,,,95\n2027-06-22,,,,,,,,,,95\n",
        "row 4, column `date`: says the same as row 3");
    CHECK(doubts(day_1 + "2027-06-22,,,,,,,3,grower,,\n2027-06-22,,,,,,,2,grower,,\n" +
                 "2027-06-23,,,,,,,3,grower,,\n2027-06-24,,,,,,,,,,\n2027-06-24,,,,,,,,,,\n")
              .empty());
}

TEST_CASE("money for fuel that is not what the gallons cost is doubted") {
    LogContext fuel = context();
    fuel.fuel_cost = "tips"; // what the column of money is called here
    const std::string day_2 = "2027-06-22,Hazel,120,140,20,800,4.60,,,,";
    CHECK(
        doubts(day_1 + day_2 + "1500\n", fuel) ==
        std::vector<std::string>{"row 3, column `amount.tips`: the column comes to $1,500.00, the "
                                 "fuel at its price to $7,360.00"});
    CHECK(doubts(day_1 + day_2 + "7400\n", fuel).empty());
    // A price that is said of the first day alone is the price of all.
    CHECK(doubts(day_1 + "2027-06-22,Hazel,120,140,20,800,,,,,7400\n", fuel).empty());
    CHECK(doubts(day_1 + day_2 + "1500\n").empty()); // of tips nobody knows
}

TEST_CASE("meters of other machines are not held against each other") {
    CHECK(doubts("2027-06-21,Walt,60,80,20,800,4.60,,,,\n").empty());
}

TEST_CASE("a meter is held against that of another log under either of its names") {
    LogContext about = context();
    about.counted[0].machine = "hazel.rig";
    CHECK(doubts("2027-06-21,hazel.rig,60,80,20,800,4.60,,,,\n", about).size() == 1);
}

} // namespace checks_test
