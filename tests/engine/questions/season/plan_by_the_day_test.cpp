// The plan against every order of the jobs, each put where it goes by living through it day by day.
#include "tests/engine/questions/season/lived_plan.h"

#include <doctest/doctest.h>

namespace plan_by_the_day_test {

using namespace acre;

TEST_CASE("a plan keeps dates and machines, and no order of the jobs loses less") {
    int with_clashes = 0, left_out = 0;
    for (unsigned seed = 1'001; seed <= 1'080; ++seed) {
        CAPTURE(seed);
        tests::Draw draw(tests::Dice{seed});
        tests::Drawn drawn = draw.season(draw.whole(2, 5));
        drawn.question.until = tests::year_start + draw.whole(180, 240);
        const engine::Season season = engine::season(drawn.told, drawn.machines, drawn.question);
        CHECK(tests::amiss_in_plan(drawn, season) == "");
        with_clashes += season.clashes.listed.empty() ? 0 : 1;
        left_out += season.plan->left_out > 0 ? 1 : 0;
    }
    CHECK(with_clashes > 20); // else the test says little
    CHECK(left_out > 5);
}

} // namespace plan_by_the_day_test
