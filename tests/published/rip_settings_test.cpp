// Ripping and its move in settings that are ordinary but not the examples' own: what is refused,
// what is only told, and what is counted in whole passes.
#include <algorithm>
#include <string>

#include "tests/support/demo.h"

namespace rip_settings_test {

using namespace acre::tests;

namespace {

bool warns(Demo& job, const std::string& words) {
    const auto& said = job.estimate().cautions;
    return std::any_of(said.begin(), said.end(), [&](const acre::engine::CautionRow& one) {
        return one.text.find(words) != std::string::npos;
    });
}

} // namespace

// Three lines of a tree row with two shanks are two passes; a row has no pulls to be close enough.
TEST_CASE("tree rows: whole passes, and no rule of spacing") {
    const auto way = [](const char* lines, const char* shanks) {
        return Demo("03-rows-or-field", "Tree rows, one pull",
                    {{"lines_per_row", lines}, {"shanks", shanks}, {"depth", "3 ft"}})["way"];
    };
    const double once = 41 * 43'560 / 21.0 / 5'280;
    CHECK(way("1", "2") == doctest::Approx(once));
    CHECK(way("2", "2") == doctest::Approx(once));
    CHECK(way("3", "2") == doctest::Approx(2 * once));
    CHECK(way("3", "1") == doctest::Approx(3 * once));
    CHECK(!Demo("03-rows-or-field", "", {{"depth", "3 ft"}}).faults().empty()); // 7 ft apart
}

// NRCS practice standard 324, Deep Tillage (Arizona, November 2008, read December 1, 2026): at
// least an inch deeper than the restrictive layer, and soil drier than 30 % of field capacity at
// the greatest depth. The pan of job 01 lies at 3 to 4 ft.
TEST_CASE("a rip that ends in the pan, or reaches a wet layer, is told so") {
    const auto said = [](Demo::Sets sets, const char* words) {
        Demo job("01-first-price", "", std::move(sets));
        return warns(job, words);
    };
    const char *ends = "The rip ends in this pan", *wet = "A wet layer smears";
    CHECK(!said({}, ends));
    CHECK(said({{"depth", "3.5 ft"}}, ends));
    CHECK(said({{"depth", "4 ft"}}, ends));
    CHECK(!said({{"depth", "4.09 ft"}}, ends));
    CHECK(!said({{"depth", "4 ft"}, {"pan.thick", "0 ft"}}, ends));
    CHECK(!said({}, wet));
    CHECK(said({{"bottom.state", "wet"}}, wet));
    CHECK(!said({{"depth", "3.5 ft"}, {"bottom.state", "wet"}}, wet)); // not reached
}

// Common practice, no source: nine hours off are the least. Twelve on shift leave three for rides.
TEST_CASE("a crew that sleeps at home too far away is told to stay") {
    const char* words = "Shift and ride together";
    Demo near("01-first-price", "", {{"site.miles", "74 mi"}}),
        far("01-first-price", "", {{"site.miles", "76 mi"}}),
        stays("01-first-price", "", {{"site.miles", "76 mi"}, {"site.sleeps", "away"}});
    CHECK(!warns(near, words));
    CHECK(warns(far, words));
    CHECK(!warns(stays, words));
}

// 80,000 lb less some 32,000 lb of truck and flatbed: common practice, no source.
TEST_CASE("blade and ripper on one trailer are to be weighed, on two are paid") {
    const char* words = "Blade and ripper on one trailer";
    Demo one("06-far-away"), two("06-far-away", "", {{"load.second_trailers", "2"}});
    CHECK(warns(one, words));
    CHECK(!warns(two, words));
    CHECK(two["haul.second_trailer.amount"] ==
          doctest::Approx(2 * one["haul.second_trailer.amount"]));
}

} // namespace rip_settings_test
