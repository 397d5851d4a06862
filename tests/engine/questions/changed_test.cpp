#include <doctest/doctest.h>

#include "engine/questions/changed.h"
#include "tests/support/priced.h"

namespace changed_test {

using namespace acre::engine;
using acre::tests::Choices;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

const std::string model =
    "model \"m\"\ngiven area = 10 ac  \"acres\"\ngiven rate = $30/ac  \"rate\"\n"
    "given how = one | both  \"how\"\n"
    "require rate < $100/ac  \"too dear\"\n"
    "cost labor : $/ac = rate over area\n"
    "price \"Work\" per ac of area\n  overhead 10 %\n  margin 20 %\n";

Priced with(std::vector<std::pair<std::string, std::string>> sets) {
    Choices choices;
    choices.sets = std::move(sets);
    return priced_ok(model, choices);
}

} // namespace

TEST_CASE("price, cost, overhead and profit before and after, and what each value adds") {
    const auto changed = changed_price(with({}), with({{"rate", "$40/ac"}, {"area", "20 ac"}}));
    REQUIRE(changed.has_value());
    // $300 and 10 % over 0.8 is $412.50; $800 and 10 % over 0.8 is $1,100.
    REQUIRE(changed->figures.size() == 6);
    const ChangedFigure& price = changed->figures[0];
    CHECK(price.name == "price.total");
    CHECK(price.before == doctest::Approx(412.50));
    CHECK(price.after == doctest::Approx(1100));
    CHECK(price.before_text == "$412.50");
    CHECK(changed->figures[1].after == doctest::Approx(55)); // all in, an acre
    CHECK(changed->figures[2].after == doctest::Approx(800));
    CHECK(changed->figures[3].before == doctest::Approx(30));
    CHECK(changed->figures[3].after == doctest::Approx(80)); // computed anew
    CHECK(changed->figures[4].before == doctest::Approx(412.50 - 330));
    CHECK(changed->figures[4].after == doctest::Approx(220));
    CHECK(changed->figures[5].after == doctest::Approx(20));
    REQUIRE(changed->why.has_value());
    REQUIRE(changed->why->rows.size() == 2);
    // Acres first or rate first: $13.75 an acre and dollar of rate at 10 and at 20 acres.
    double sum = 0;
    for (const BridgeRow& row : changed->why->rows)
        sum += row.share;
    CHECK(sum == doctest::Approx(1100 - 412.50));
    CHECK(changed->why->rows[1].share == doctest::Approx((137.50 + 275) / 2));
}

TEST_CASE("a line before and after, a number or a choice") {
    const Priced before = with({}), after = with({{"rate", "$33/ac"}, {"how", "both"}});
    const auto rate = changed_line(before, after, "labor.amount");
    REQUIRE(rate.has_value());
    CHECK(rate->before == doctest::Approx(300));
    CHECK(rate->after == doctest::Approx(330));
    const auto how = changed_line(before, after, "how");
    REQUIRE(how.has_value());
    CHECK(how->before_text == "one");
    CHECK(how->after_text == "both");
    CHECK_FALSE(changed_line(before, after, "hwo").has_value());
    // A line of one of the two alone, or in another unit, has no before and after.
    const Priced other = priced_ok("model \"n\"\ngiven area = 10 ft\ngiven wage = $30/h\n");
    for (const char* line : {"rate", "wage", "area"}) {
        CHECK_FALSE(changed_line(before, other, line).has_value());
        CHECK_FALSE(changed_line(other, before, line).has_value());
    }
}

TEST_CASE("without a price on either side there is no change of one") {
    const Priced none = with({{"rate", "$200/ac"}});
    CHECK_FALSE(changed_price(with({}), none).has_value());
    CHECK_FALSE(changed_price(none, with({})).has_value());
}

TEST_CASE("lump sums have no price per unit to tell of") {
    const std::string lump = "model \"m\"\ngiven rate = $30\ncost labor : $ = rate over 1\n"
                             "price \"Work\" lump\n";
    const auto changed = changed_price(priced_ok(lump), priced_ok(lump));
    REQUIRE(changed.has_value());
    CHECK(changed->figures.size() == 5);
    for (const ChangedFigure& figure : changed->figures)
        CHECK(figure.name != "price.per_unit");
    // Of one that is sold by the acre beside one that is not, neither.
    const auto mixed = changed_price(priced_ok(lump), with({}));
    REQUIRE(mixed.has_value());
    CHECK(mixed->figures.size() == 5);
}

} // namespace changed_test
