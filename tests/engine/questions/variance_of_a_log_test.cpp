// What a log that is whole, or only a part, says of the whole job; and what the log alone can know.
#include <string>
#include <utility>

#include <doctest/doctest.h>

#include "engine/questions/variance.h"
#include "lang/diag/codes.h"

namespace variance_of_a_log_test {

using namespace acre;
using namespace acre::engine;

namespace {

JobLog must_read(const std::string& text, const std::vector<CountedLine>& counted) {
    lang::Outcome<JobLog> log = read_job_log("log.csv", text, counted);
    REQUIRE(log.value.has_value());
    return *log;
}
VarianceAnswer variance(const Quoted& quoted, const JobLog& log) {
    const lang::Outcome<VarianceAnswer> answer = ask(quoted, log);
    REQUIRE(answer.value.has_value());
    return *answer;
}
Quoted ripping() {
    Quoted quoted;
    quoted.quote = "2027-001";
    quoted.counted = {{"machine_hours", "h", Counting::Meter, "crawler", 100, {"ownership"}},
                      {"acres", "ac", Counting::Work, "", 100, {}},
                      {"gallons", "gal", Counting::Fuel, "", 4'000, {"fuel"}},
                      {"days", "day", Counting::Days, "", 5, {}},
                      {"crew_trips", "trip", Counting::Work, "", 10, {"crew_travel"}, true},
                      {"tips_used", "1", Counting::Work, "", 2, {}, true}};
    quoted.price = 90'000;
    quoted.overhead = 6'000;
    quoted.costs = {{"ownership", "", "Ripping", "$/h", "h", 130, 100},
                    {"fuel", "", "Ripping", "$/gal", "gal", 4.5, 4'000},
                    {"ground_tools", "", "Ripping", "$/h", "h", 20, 80},
                    {"crew_travel", "", "Ripping", "$/trip", "trip", 90, 10},
                    {"nights_away", "", "Ripping", "$/night", "night", 150, 20},
                    {"lowbed", "", "Move", "$/h", "h", 170, 8}};
    quoted.lines = {{"crawler.tip", 300},
                    {"crawler.tip_life", 40},
                    {"standby_crew", 1'400},
                    {"crew.meter_per_day", 20.0},
                    {"machines", 1}};
    return quoted;
}
const VarianceRow& row_of(const VarianceAnswer& answer, const std::string& cost) {
    for (const VarianceRow& row : answer.rows)
        if (row.quoted.name == cost)
            return row;
    FAIL("no such row");
    return answer.rows[0];
}
// 40 of 100 acres in 44 meter hours on two days.
const std::string part = "date,meter_start,meter_stop,acres,gallons\n2027-06-21,0,22,21,900\n"
                         "2027-06-22,22,44,19,860\n";

} // namespace

TEST_CASE("the log of a job that is not done is scaled to the whole of it, and says so") {
    Quoted quoted = ripping();
    quoted.finished = false;
    const VarianceAnswer answer = variance(quoted, must_read(part, quoted.counted));
    CHECK(answer.share == doctest::Approx(0.4));
    CHECK(answer.scaled_by == doctest::Approx(2.5));
    // 110 h in place of 100, 4,400 gal in place of 4,000, as the whole job would come to.
    CHECK(row_of(answer, "ownership").actual_amount == doctest::Approx(110 * 130));
    CHECK(row_of(answer, "fuel").quantity == doctest::Approx(4'400));
    CHECK(*row_of(answer, "fuel").by_hours == doctest::Approx(10 * 40 * 4.5));
    CHECK(answer.income == 90'000);
    CHECK(answer.counted[1].logged == doctest::Approx(40)); // what was done is not scaled
    CHECK(row_of(answer, "lowbed").as_quoted());
    // So half a log no longer leaves half the cost against all of the price.
    CHECK(answer.actual_profit() < answer.quoted_profit());
    const JobLog nothing =
        must_read("date,meter_start,meter_stop,acres\n2027-06-21,,,0\n", quoted.counted);
    const lang::Outcome<VarianceAnswer> refused = ask(quoted, nothing);
    REQUIRE(!refused);
    CHECK(lang::name_of(refused.said.diagnostics.all()[0].code) == "R010");
}

TEST_CASE("of a finished job income is what is billed, and overhead is counted") {
    Quoted quoted = ripping();
    quoted.income = 36'000; // 40 acres at $900
    const VarianceAnswer answer = variance(quoted, must_read(part, quoted.counted));
    CHECK(answer.scaled_by == 1);
    // By hand: 44 h at $130, 1,760 gal at $4.50, ground tools 80 * 44 / 100 h at $20, trips and
    // nights two fifths of those quoted, and the lowbed as quoted.
    const double cost = 44 * 130 + 1'760 * 4.5 + 35.2 * 20 + 4 * 90 + 8 * 150 + 8 * 170;
    CHECK(answer.actual_cost == doctest::Approx(cost));
    CHECK(answer.actual_profit() == doctest::Approx(36'000 - cost - 6'000));
    CHECK(answer.quoted_profit() ==
          doctest::Approx(90'000 - (13'000 + 18'000 + 1'600 + 900 + 3'000 + 1'360) - 6'000));
}

TEST_CASE("what the log can know is taken from it: trips, tips, a crew that waited") {
    const Quoted quoted = ripping();
    const VarianceAnswer answer =
        variance(quoted, must_read("date,meter_start,meter_stop,acres,gallons,crew_trips,tips_used,"
                                   "down_hours,down_cause,crew_waited\n"
                                   "2027-06-21,0,22,50,900,2,1,3,rain,yes\n"
                                   "2027-06-22,22,44,50,860,3,4,2,parts,no\n",
                                   quoted.counted));
    CHECK(row_of(answer, "crew_travel").actual_amount == doctest::Approx(5 * 90));
    // Five tips at $300; the rest of the ground tools, $20 less $300 / 40 h, over 35.2 h.
    CHECK(row_of(answer, "ground_tools").actual_amount == doctest::Approx(1'500 + 12.5 * 35.2));
    // Three hours for which the crew waited, at $1,400 for a day of 20 h.
    CHECK(row_of(answer, "standby_crew").actual_amount == doctest::Approx(3 * 70));
    CHECK(row_of(answer, "standby_crew").quoted_amount == 0);
    CHECK(!row_of(answer, "crew_travel").as_quoted());
    CHECK(!row_of(answer, "nights_away").as_quoted());
    // Of a model with terms of its own: what a day with the crew is over one without, in 10 hours.
    Quoted own = quoted;
    own.lines = {{"standing_by", 400}, {"standing_by_with_crew", 1'020}, {"day_hours", 10}};
    const VarianceAnswer waited =
        variance(own, must_read("date,meter_start,meter_stop,acres,gallons,down_hours,down_cause,"
                                "crew_waited\n2027-06-21,0,22,100,900,3,rain,yes\n",
                                own.counted));
    CHECK(row_of(waited, "standby_crew").actual_amount == doctest::Approx(3 * 62));
    // A crew that costs nothing while it waits, or hours that are none, say nothing.
    for (const auto& [a_day, hours] : {std::pair{400.0, 10.0}, {1'020.0, 0.0}}) {
        own.lines = {{"standing_by", 400}, {"standing_by_with_crew", a_day}, {"day_hours", hours}};
        const VarianceAnswer free = variance(
            own, must_read("date,meter_start,meter_stop,acres,gallons,down_hours,down_cause,"
                           "crew_waited\n2027-06-21,0,22,100,900,3,rain,yes\n",
                           own.counted));
        for (const VarianceRow& row : free.rows)
            CHECK(row.quoted.name != "standby_crew");
    }
}

TEST_CASE("several machines are told apart by the names that people give them") {
    Quoted quoted;
    quoted.counted = {{"hazel.machine_hours", "h", Counting::Meter, "hazel.rig", 60, {"hazel.own"}},
                      {"walt.machine_hours", "h", Counting::Meter, "walt.rig", 60, {"walt.own"}},
                      {"acres", "ac", Counting::Work, "", 100, {}}};
    quoted.costs = {{"hazel.own", "", "Ripping", "$/h", "h", 130, 60},
                    {"walt.own", "", "Ripping", "$/h", "h", 70, 60}};
    const VarianceAnswer answer =
        variance(quoted, must_read("date,machine,meter_start,meter_stop,acres\n"
                                   "2027-06-21,Hazel,0,20,40\n2027-06-21,Walt,500,515,20\n"
                                   "2027-06-22,HAZEL,20,42,40\n",
                                   quoted.counted));
    CHECK(row_of(answer, "hazel.own").actual_amount == doctest::Approx(42 * 130));
    CHECK(row_of(answer, "walt.own").actual_amount == doctest::Approx(15 * 70));
}

TEST_CASE("a day without gallons is taken to burn like the others, and is told") {
    const Quoted quoted = ripping();
    const VarianceAnswer answer =
        variance(quoted, must_read("date,meter_start,meter_stop,acres,gallons\n"
                                   "2027-06-21,0,20,50,800\n2027-06-22,20,40,50,\n",
                                   quoted.counted));
    CHECK(row_of(answer, "fuel").quantity == doctest::Approx(1'600));
    CHECK(answer.log.unlogged.at("gallons").days == 1);
    CHECK(answer.counted[2].per_hour->value == doctest::Approx(40)); // and not 20
}

} // namespace variance_of_a_log_test
