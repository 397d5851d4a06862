// Break-even use against published arithmetic.
#include <doctest/doctest.h>

#include "engine/questions/what_if/break_even.h"
#include "engine/questions/what_if/grid.h"
#include "tests/support/priced.h"

namespace break_even_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

// A textbook of farm management (machinery chapter; figures read in a published copy): a machine
// that costs 1,000 a year to own and 4 an acre to run. Total cost at 10, 50, 100, 200, 500 acres:
// 1040, 1200, 1400, 1800, 3000; by the acre at 50, 100, 200, 500: 24, 14, 9, 6. Against a custom
// rate of 21 it pays from "about 60" acres: 1000 / (21 - 4) = 58.82.
namespace {
const std::string text = "model \"Own or hire\"\n"
                         "given acres = 100 ac  \"acres a year\"  within 1 ac .. 2,000 ac\n"
                         "total : $ = $1,000 + $4/ac * acres  \"cost a year\"\n"
                         "by_acre : $/ac = total / acres  \"cost an acre\"\n";
}

TEST_CASE("owning pays from 58.82 acres at a custom rate of 21") {
    const Priced job = priced_ok(text);
    const auto found = ask(job.job(), BreakEvenQuestion{"acres", "by_acre", 21, {}});
    REQUIRE(found.value.has_value());
    REQUIRE(found->crossings.size() == 1);
    CHECK(found->crossings[0].kind == CrossingKind::Root);
    CHECK(found->crossings[0].x == doctest::Approx(1000.0 / 17).epsilon(1e-12));
    CHECK(found->crossings[0].x == doctest::Approx(58.82).epsilon(1e-4));
    CHECK_FALSE(found->crossings[0].rising);
}

TEST_CASE("the table of total cost and cost an acre is the published one") {
    const Priced job = priced_ok(text);
    const auto g =
        ask(job.job(), GridQuestion{{{"acres", {10, 50, 100, 200, 500}}}, {"total", "by_acre"}});
    REQUIRE(g.value.has_value());
    CHECK(g->columns[0].value == std::vector<double>{1040, 1200, 1400, 1800, 3000});
    CHECK(g->columns[1].value == std::vector<double>{104, 24, 14, 9, 6});
}

} // namespace break_even_test
