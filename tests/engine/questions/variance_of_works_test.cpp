// What jobs of several machines or services cost against their quotes, worked out by hand from the
// rates of the quote and what the log has.
#include <string>

#include <doctest/doctest.h>

#include "tests/support/quoted_work.h"

namespace variance_of_works_test {

using namespace acre;
using namespace acre::engine;
using doctest::Approx;
using tests::bench_job;
using tests::QuotedWork;
using tests::row_of;

namespace {

const std::string pull = bench_job("pull-trees", "set area = 40 ac\n");

// Disc, level and plant under one quote.
const std::string smooth =
    "model \"Ground made ready\"\nmoney USD\nuse \"season-prices\" as prices\n"
    "use \"site\"\nuse \"crew\"\n"
    "part \"Block\"\n  given area : ac  \"acres\"\n"
    "part \"Moves\"\n  use \"move-tractor\" as tractor_move\n  use \"move-disc\" as disc_move\n"
    "  use \"move-scraper\" as scraper_move\n  use \"move-planting\" as planting_move\n"
    "part \"Smoothing\"\n  use \"disc-float\" as smoothing with area = area\n"
    "part \"Leveling\"\n  use \"level\" as leveling with area = area\n"
    "part \"Planting\"\n  use \"plant\" as planting with area = area\n"
    "part \"All\"\n"
    "  days : day = smoothing.days + leveling.days + planting.days  \"days\"\n"
    "  gallons : gal = smoothing.gallons + leveling.gallons + planting.gallons  \"diesel\"\n"
    "count area, gallons, days\n"
    "price \"Smoothing\" per ac of area covers \"Smoothing\"\n"
    "price \"Leveling\" per cy of leveling.yards covers \"Leveling\"\n"
    "price \"Planting\" per tree of planting.trees covers \"Planting\"\n"
    "price \"Moves\" lump covers \"Moves\"\n";
QuotedWork smoothed() {
    return QuotedWork(bench_job("smooth", "set area = 50 ac\nset leveling.yards = 2,200 cy\n"),
                      {{"smooth.rate", smooth}});
}
const std::string smooth_head =
    "date,machine,meter_start,meter_stop,area,yards,planted_trees,gallons,amount.nursery_trees\n";
const std::string disced = "2027-09-07,Tractor,0,9,25,,,140,\n2027-09-08,Tractor,9,18,25,,,145,\n";
const std::string leveled =
    "2027-09-09,Tractor,18,26,,1100,,130,\n2027-09-10,Tractor,26,38,,1100,,180,\n";
const std::string planted =
    "2027-09-13,Tractor,38,58,,,3000,300,55900\n2027-09-14,Tractor,58,78,,,3270,300,\n";

} // namespace

// One excavator or two, the grinder and its loader: the log has no more than it says.
TEST_CASE("a machine that the log leaves out costs what was quoted, and not nothing") {
    const QuotedWork work(pull);
    const VarianceAnswer answer =
        work.variance(work.log("date,machine,meter_start,meter_stop,area,trees,gallons\n"
                               "2027-09-13,Excavator 1,500,524,40,4000,160\n"
                               "2027-09-13,Excavator 2,900,923.5,,,150\n"));
    CHECK(answer.unlogged_machines == std::vector<std::string>{"grinder", "loader"});
    CHECK(row_of(answer, "excavators").actual_amount ==
          Approx(47.5 * work.value("excavator.without_fuel")));
    for (const char* cost : {"grinders", "grinding_crew", "spreaders", "spreading_crew",
                             "grind_diesel", "pull_diesel", "crew_travel"}) {
        CAPTURE(std::string(cost));
        CHECK(row_of(answer, cost).as_quoted());
        CHECK(row_of(answer, cost).actual_amount == row_of(answer, cost).quoted_amount);
    }
}

TEST_CASE("pulling is measured by the excavators, spreading by the loader less the grinder") {
    const QuotedWork work(pull);
    const std::string head = "date,machine,meter_start,meter_stop,area,trees,gallons\n";
    const std::string pulled = "2027-09-13,Excavator,0,24,20,2000,160\n"
                               "2027-09-14,Excavator,24,48,20,2048,160\n";
    const std::string ground = "2027-09-15,Grinder,0,20,,,800\n2027-09-15,Loader,0,20,,,200\n"
                               "2027-09-16,Grinder,20,40,,,800\n2027-09-16,Loader,20,40,,,200\n";
    const VarianceAnswer done =
        work.variance(work.log(head + pulled + ground + "2027-09-17,Loader,40,64,,,300\n"));
    CHECK(done.unlogged_machines.empty());
    CHECK(done.work_share == Approx(1)); // 40 ac of 40, whatever the grinder's rows leave empty
    CHECK(row_of(done, "grinders").quantity == Approx(40));
    CHECK(row_of(done, "spreaders").quantity == Approx(64 - 40));
    // Half of it pulled, and the log is doubled.
    const VarianceAnswer half = work.variance(
        work.log(head + "2027-09-13,Excavator,0,24,20,2000,160\n2027-09-15,Grinder,0,20,,,800\n"
                        "2027-09-15,Loader,0,20,,,130\n2027-09-16,Loader,20,32,,,70\n"),
        false);
    CHECK(half.share == Approx(0.5));
    CHECK(row_of(half, "excavators").quantity == Approx(48));
    CHECK(row_of(half, "spreaders").quantity == Approx(2 * (32 - 20)));
    // The bill asks for no acres of the grinder.
    const JobLog log = work.log(head + pulled + ground);
    REQUIRE(work.bill(log).value.has_value());
    CHECK(work.bill(log)->lines.at(0).quantity == 40);
    const JobLog left = work.log(head + pulled + "2027-09-18,Excavator,48,50,,,20\n");
    CHECK_FALSE(work.bill(left).value.has_value());
}

TEST_CASE("each of several services has its own days, hours and money") {
    const QuotedWork work = smoothed();
    const JobLog log = work.log(smooth_head + disced + leveled + planted);
    CHECK(work.doubts(log).empty());
    const VarianceAnswer answer = work.variance(log);
    CHECK(answer.work_share == Approx(1));
    // 18 h of discing and floating in the share quoted, 20 of leveling, 40 of planting.
    CHECK(row_of(answer, "smoothing.disc_tractor").quantity +
              row_of(answer, "smoothing.float_tractor").quantity ==
          Approx(18));
    CHECK(row_of(answer, "leveling.level_tractor").quantity == Approx(20));
    CHECK(row_of(answer, "planting.plant_tractor").quantity == Approx(40));
    CHECK(row_of(answer, "planting.guards").quantity == Approx(6'270));
    CHECK(row_of(answer, "planting.nursery_trees").actual_amount == 55'900);
    CHECK(answer.unknown_costs.empty());
    CHECK(row_of(answer, "leveling.survey_paid").quantity == Approx(50));
}

TEST_CASE("of several services one that has not begun is as quoted, one half done is doubled") {
    const QuotedWork work = smoothed();
    const VarianceAnswer answer = work.variance(
        work.log(smooth_head + disced + "2027-09-09,Tractor,18,26,,1100,,130,\n"), false);
    CHECK(row_of(answer, "smoothing.disc_tractor").quantity +
              row_of(answer, "smoothing.float_tractor").quantity ==
          Approx(18));
    CHECK(row_of(answer, "leveling.level_tractor").quantity == Approx(16)); // 8 h for half of it
    CHECK(row_of(answer, "planting.plant_tractor").as_quoted());
    CHECK(row_of(answer, "planting.guards").as_quoted());
    CHECK(answer.by_service);
    // By the hours quoted: all of the discing, half of the leveling.
    const double disc = work.value("smoothing.tractor_hours"),
                 scrape = work.value("leveling.level_hours"),
                 plant = work.value("planting.tractor_hours");
    CHECK(answer.share == Approx((disc + scrape / 2) / (disc + scrape + plant)));
}

} // namespace variance_of_works_test
