// The season against one lived through day by day: days, clashes, hours, money by month, what
// covers the year, jobs that may be one.
#include "tests/engine/questions/season/lived_season.h"

#include <doctest/doctest.h>

namespace by_the_day_test {

using namespace acre;

TEST_CASE("two hundred seasons agree with themselves lived through day by day") {
    for (unsigned seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        tests::Draw draw(tests::Dice{seed});
        const tests::Drawn drawn = draw.season(draw.whole(1, 12));
        const engine::Season season = engine::season(drawn.told, drawn.machines, drawn.question);
        CHECK(tests::amiss_in(drawn, season) == "");
    }
}

} // namespace by_the_day_test
