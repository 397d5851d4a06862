// The road of legs in the sample jobs, by hand arithmetic: miles over miles an hour, fees by two
// moves.
#include "tests/support/demo.h"

namespace acre::tests {
namespace {

TEST_CASE("a road of three legs: each with its own speed, pilot cars, fee and hours") {
    const Demo road("18-three-counties");
    const double corvane = 62 / 35.0, pass = 48 / 22.0, lisk = 95 / 35.0;
    CHECK(road["site.loaded_hours"] == doctest::Approx(corvane + pass + lisk));
    CHECK(road["site.way"] == doctest::Approx(205));
    // Front and rear for 120 ft of truck and trailer, there and back, for two moves.
    CHECK(road["haul.pilot_hours"] ==
          doctest::Approx(2 * 2 * (corvane + 62 / 48.0 + pass + 1 + lisk + 95 / 48.0)));
    // One state, $16; the counties ask $16, $14 over the pass and $16, each for two moves. None may
    // ask more than the state (attorney general's opinion of 2005 on Vehicle Code 35795).
    double permits = 0;
    for (const char* leg : {"corvane", "pass", "lisk"})
        permits += road["haul." + std::string(leg) + ".state_permit.amount"] +
                   road["haul." + std::string(leg) + ".county_permit.amount"];
    CHECK(permits == doctest::Approx(2 * (16 + 16 + 14 + 16)));
    // Off the pass by 18:00, off the last leg by 19:30: the last decides, and loading takes 2.5 h.
    CHECK(road["haul.load_out_by"] == doctest::Approx(19.5 - corvane - pass - lisk - 2.5));
    CHECK(road["haul.pass.leave_by"] == doctest::Approx(18 - corvane - pass));
}

TEST_CASE("a leg that closes before the one before it opens leaves no start, and says so") {
    Demo winter("18-three-counties", "In winter");
    // Off the pass by 14:00 and not on it before 12:00: 1.77 h of valley and 2.18 h of pass.
    CHECK(winter["haul.pass.leave_by"] < winter["haul.pass.leave_after"]);
    const auto warned = [](const engine::Estimate& estimate) {
        return std::any_of(
            estimate.cautions.begin(), estimate.cautions.end(),
            [](const engine::CautionRow& row) { return row.text.starts_with("No start clears"); });
    };
    CHECK(warned(winter.estimate()));
    Demo summer("18-three-counties");
    CHECK(!warned(summer.estimate()));
}

TEST_CASE("in California no county's permit costs more than the state's, on any leg") {
    const auto warned = [](const char* name, Demo::Sets sets) {
        Demo job(name, "", std::move(sets));
        const auto& said = job.estimate().cautions;
        return std::any_of(said.begin(), said.end(), [](const engine::CautionRow& row) {
            return row.text.find("A county permit dearer than the state's") != std::string::npos;
        });
    };
    CHECK(!warned("18-three-counties", {}));
    CHECK(warned("18-three-counties", {{"pass.site.county_fee", "$120/permit"}}));
    CHECK(warned("01-first-price", {{"season_prices.county_permit", "$17/permit"}}));
    CHECK(!warned("01-first-price", {{"season_prices.county_permit", "$17/permit"},
                                     {"season_prices.state", "oregon"}}));
}

TEST_CASE("a bridge that is too low on one leg stops the move") {
    Demo low("18-three-counties", "", {{"lisk.haul.clearance", "13 ft"}});
    CHECK(low.faults() == std::vector<lang::Code>{lang::Code::E504});
}

} // namespace
} // namespace acre::tests
