#include "engine/questions/moved.h"

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

#include "engine/questions/givens.h"
#include "engine/questions/price.h"
#include "tests/support/priced.h"

namespace moved_test {

using namespace acre;
using namespace acre::engine;
using namespace acre::tests;

namespace {

using Sets = std::vector<std::pair<std::string, std::string>>;

const std::string mowing =
    "model \"Mowing\"\n"
    "choice ground = flat | rough\n"
    "given area = 40 ac within 1 ac .. 900 ac swing 30 ac .. 50 ac\n"
    "given meets : ground = flat\n"
    "given pace = 5 ac/h\n"
    "given hours : h = area / pace\n"
    "part \"Work\"\n"
    "  cost mower : $/h = (when meets is rough then $75/h otherwise $50/h) over "
    "hours\n"
    "price \"Mowing\" per ac of area\n"
    "  margin 20 %\n";

Job made(const Sets& sets = {}) {
    Choices choices;
    choices.sets = sets;
    choices.files = {{"mowing.rate", mowing}};
    return *priced_ok("job \"Creek\"\nmodel \"mowing\"\nset pace = 4 ac/h\n", choices).made;
}

std::int64_t cents(const PricedJob& job) {
    const lang::Outcome<PriceAnswer> answer = ask(job, PriceQuestion{});
    return answer ? answer->estimate.price_cents : -1;
}

} // namespace

TEST_CASE("a job with moved givens is the job made anew with them, slot by slot") {
    for (const Sets& sets :
         {Sets{{"area", "62 ac"}}, Sets{{"pace", "0.25 ac/min"}, {"area", "7 ac"}},
          Sets{{"meets", "rough"}}, Sets{}}) {
        const Job after = moved(*made(), sets);
        REQUIRE(after != nullptr);
        const Job anew = made(sets);
        for (const char* line : {"area", "pace", "hours", "mower.amount", "price.total"})
            CHECK(after->value(after->sheet().find(line)) == anew->value(anew->sheet().find(line)));
        CHECK(cents(*after) == cents(*anew));
    }
}

TEST_CASE("what is no number of a given's own is left to those who read the texts") {
    const Job job = made();
    for (const Sets& sets :
         {Sets{{"hours", "9 h"}}, Sets{{"area", "9 ft"}}, Sets{{"meets", "wet"}},
          Sets{{"no_such", "9 ft"}}, Sets{{"area", "2 * 9 ac"}}, Sets{{"mower", "$9/h"}}})
        CHECK(moved(*job, sets) == nullptr);
}

TEST_CASE("a moved given outside its range has no price, as if it had been set") {
    const Job after = moved(*made(), Sets{{"area", "1,000 ac"}});
    REQUIRE(after != nullptr);
    CHECK(cents(*after) == -1);
}

TEST_CASE("the job that moved leaves the one it came from as it was") {
    const Job job = made();
    const std::int64_t before = cents(*job);
    CHECK(cents(*moved(*job, Sets{{"area", "62 ac"}})) != before);
    CHECK(cents(*job) == before);
}

TEST_CASE("a layout stands while what it was laid by is the same but for rounding") {
    const double nan = std::nan("");
    const LaidBy before = {{"speed", 3.0}, {"turn", nan}};
    CHECK(laid_alike(before, before));
    CHECK(laid_alike(before, {{"speed", 3 + 1e-12}, {"turn", nan}}));
    CHECK_FALSE(laid_alike(before, {{"speed", 3.003}, {"turn", nan}})); // a thousandth
    CHECK_FALSE(laid_alike(before, {{"speed", 3.0}, {"turn", 30}}));
    CHECK_FALSE(laid_alike({{"speed", 3.0}, {"turn", 30}}, before));
    CHECK_FALSE(laid_alike(before, {{"speed", 3.0}, {"layout_heading", nan}}));
    CHECK_FALSE(laid_alike(before, {{"speed", 3.0}}));
}

TEST_CASE("givens tell who set them, in which range they may move, and which are computed") {
    const GivensAnswer answer = all_givens(*made());
    REQUIRE(answer.rows.size() == 4);
    const GivenRow& area = answer.rows[0];
    CHECK(area.given.name == "area");
    CHECK(area.set_by == "model");
    REQUIRE(area.within.has_value());
    CHECK(area.within->high == 900);
    REQUIRE(area.swing.has_value());
    CHECK(area.swing->low == 30);
    CHECK(area.may_move());
    CHECK(answer.rows[1].given.options == std::vector<std::string>{"flat", "rough"});
    CHECK(answer.rows[2].set_by == "job");
    CHECK(answer.rows[3].written == "area / pace");
    CHECK_FALSE(answer.rows[3].may_move());
}

} // namespace moved_test
