// What a quote's terms and a job's conditions come to: moves, ground, standby, hours sold, extras.
// Hand arithmetic, and shares that the trade charges.
#include "tests/support/demo.h"

namespace acre::tests {
namespace {

TEST_CASE("what a load weighs is the crawler less what comes off") {
    const Demo check("15-what-it-scales"), rip("01-first-price");
    CHECK(check["machine"] == rip["crawler.weight"]);
    CHECK(check["carried"] == doctest::Approx(240'000 - 33'000 - 18'000 - 36'000));
}

TEST_CASE("each excavator rides on a trailer of its own, and so do grinder and loader") {
    CHECK(Demo("10-trees-out")["move_pullers.trailers"] == 4);
    CHECK(Demo("10-trees-out", "", {{"move_pullers.excavators", "3"}})["move_pullers.trailers"] ==
          5);
}

TEST_CASE("wet ground is refused, moist ground cautioned") {
    CHECK(!Demo("01-first-price", "", {{"moisture", "wet"}}).faults().empty());
    Demo moist("01-first-price", "", {{"moisture", "moist"}});
    bool told = false;
    for (const engine::CautionRow& row : moist.estimate().cautions)
        told = told || row.text.starts_with("Moist ground");
    CHECK(told);
    CHECK(moist["pull"] < Demo("01-first-price")["pull"]);
}

// A slip plow costs $150 to 300 an acre more than a shank, and its pull is a third more at least; a
// second way is charged at 60 to 75 % of the first: from memory.
TEST_CASE("a slip plow and a second way cost what the trade charges for them") {
    const Demo shank("04-crossed"), plow("04-crossed", "Slip plow"),
        crossed("04-crossed", "Crossed");
    CHECK(plow["pull"] / shank["pull"] >= 1.3);
    CHECK(plow["pull"] / shank["pull"] <= 2);
    CHECK(plow["ripping.rate"] - shank["ripping.rate"] >= 150);
    CHECK(plow["ripping.rate"] - shank["ripping.rate"] <= 300);
    CHECK(crossed["ripping.rate"] / shank["ripping.rate"] >= 1.6);
    CHECK(crossed["ripping.rate"] / shank["ripping.rate"] <= 1.75);
    // distance over speed, each way: 7.5 and 8.5 ft apart, 1.4 times as fast
    CHECK((crossed["pulling"] / shank["pulling"] - 1) == doctest::Approx(7.5 / 8.5 / 1.4));
}

// A day of two twelves: 22 meter hours of ownership stand still, and 24 h of operators.
TEST_CASE("standby covers what stands still at the shifts planned, or the public rate") {
    const Demo job("01-first-price"),
        public_rate("01-first-price", "", {{"standby_by", "public_rate"}});
    CHECK(job["standby_machine"] == doctest::Approx(22 * job["crawler.own_per_hour"]));
    CHECK(job["standby_crew"] == doctest::Approx(24 * job["crew.operator_hour"]));
    CHECK(job["standing_by_with_crew"] ==
          doctest::Approx(job["standby_machine"] + job["standby_crew"]));
    CHECK(public_rate["standing_by"] == doctest::Approx(8 * job["crawler.standby_per_hour"]));
    const Demo away("06-far-away");
    CHECK(away["standby_nights"] == doctest::Approx(3 * 165.0)); // two operators and a mechanic
}

TEST_CASE("an hour is sold at what it costs, with the steps of the price") {
    const Demo job("01-first-price");
    const double cost = job["crawler.cost_per_hour"] + job["crew.operator"] + job["crew.mechanic"] +
                        job["crew.foreman"];
    CHECK(job["crawler_by_the_hour"] == doctest::Approx(cost * 1.09 * 1.03 / 0.88));
}

TEST_CASE("extras cost nothing until a job sets them, and wait for the fumigator") {
    const Demo plain("14-old-block-to-rows"),
        strips("14-old-block-to-rows", "", {{"extras.fumigated", "38 ac"}});
    CHECK(plain["around_the_job.amount"] == 0);
    CHECK(strips["around_the_job.cost"] == doctest::Approx(38 * 1820.0));
    CHECK(strips["planted"] - plain["planted"] == doctest::Approx(30));
}

} // namespace
} // namespace acre::tests
