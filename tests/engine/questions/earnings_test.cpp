// What a price leaves, step by step, worked out by hand.
#include "engine/questions/earnings.h"

#include <string>

#include <doctest/doctest.h>

#include "tests/support/priced.h"

namespace earnings_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

// $1,000 in the field; 10 % is 1,100, 5 % 1,155, 20 % 1,386; over 70 % 1,980; then 2,000; $200/ac
// goes up to $210/ac. The camp: $500, 6 % is 530, the nearest hundred 500. Tips are in no price.
const std::string model = "model \"m\"\npart \"Field\"\n  given area = 10 ac  \"acres\"\n"
                          "  cost work : $/ac = $100/ac over area\n"
                          "part \"Camp\"\n  cost camp : $ = $500 over 1\n"
                          "part \"Rest\"\n  cost tips : $ = $70 over 1\n"
                          "price \"Ripping\" per ac of area covers \"Field\"\n"
                          "  overhead 10 %\n  reserve 5 %\n  markup 20 %\n  margin 30 %\n"
                          "  at least $2,000\n  round up to $15/ac\n"
                          "price \"Stay\" lump covers \"Camp\"\n  overhead 6 %\n"
                          "  round to $100\n";

} // namespace

TEST_CASE("each step adds to what its kind leaves, and all of them are the profit") {
    const Priced job = priced_ok(model);
    const Earnings is = earnings(job.sheet(), job.plan(), job.values(), 2'600);
    CHECK(is.price == 2'600);
    CHECK(is.direct_cost == doctest::Approx(1'570));
    CHECK(is.overhead == doctest::Approx(130));
    CHECK(is.reserve == doctest::Approx(55));
    CHECK(is.markup == doctest::Approx(231));
    CHECK(is.target_margin == doctest::Approx(594));
    CHECK(is.minimum == doctest::Approx(20));
    CHECK(is.rounding == doctest::Approx(100 - 30));
    CHECK(is.uncovered == doctest::Approx(70));
    CHECK(is.contribution() == doctest::Approx(1'030));
    CHECK(is.profit() == doctest::Approx(900));
    CHECK(is.after_reserve() == doctest::Approx(845));
    CHECK(is.margin() == doctest::Approx(900.0 / 2'600));
    CHECK(is.share(650) == doctest::Approx(0.25));
    CHECK(is.target_margin + is.markup + is.minimum + is.rounding + is.reserve - is.uncovered ==
          doctest::Approx(is.profit()));
    CHECK(overhead_of(job.sheet(), job.plan(), job.values()) == doctest::Approx(130));
}

TEST_CASE("another price that is paid is rounding; of a price of nothing there is no share") {
    const Priced job = priced_ok(model);
    CHECK(earnings(job.sheet(), job.plan(), job.values(), 2'700).rounding == doctest::Approx(170));
    const Earnings free = earnings(job.sheet(), job.plan(), job.values(), 0);
    CHECK(free.profit() == doctest::Approx(-1'570 - 130));
    CHECK(free.margin() == 0);
}

TEST_CASE("costs that are all in a price leave nothing uncovered") {
    const auto uncovered = [](const std::string& covers) {
        std::string text = model;
        text.replace(text.find("covers \"Camp\""), 13, covers);
        const Priced job = priced_ok(text);
        return earnings(job.sheet(), job.plan(), job.values(), 2'600).uncovered;
    };
    CHECK(uncovered("covers \"Camp\", \"Rest\"") == 0);
    CHECK(uncovered("") == 0); // all that no other price names
}

} // namespace earnings_test
