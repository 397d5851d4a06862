// What each block has of a price, on a job that can be worked out on paper.
#include "engine/questions/block_prices.h"

#include <string>

#include <doctest/doctest.h>

#include "engine/questions/price.h"
#include "tests/support/priced.h"

namespace block_prices_test {

using namespace acre;
using namespace acre::engine;
using namespace acre::tests;

namespace {

// Hours are acres by pace; a driver by the hour, a permit once for all, a helper by whole days.
const std::string mowing = "model \"Mowing\"\n"
                           "list block \"a meadow\"\n"
                           "part \"Meadow\" each block\n"
                           "  given area = 40 ac \"acres\"\n"
                           "  given pace = 5 ac/h \"pace\"\n"
                           "  given soil = silt | clay \"soil\"\n"
                           "  given depth = 3 ft \"depth\"\n"
                           "  block_hours : h = area / pace\n"
                           "part \"All\"\n"
                           "  acres : ac = sum(area)\n"
                           "  hours : h = sum(block_hours)\n"
                           "  days : day = ceil(hours / 8 h/day, 1 day)\n"
                           "part \"Work\"\n"
                           "  cost driver : $/h = $30/h over hours\n"
                           "  cost seed : $/ac = $7/ac over acres\n"
                           "  cost helper : $/day = $100/day over days\n"
                           "part \"Paper\"\n"
                           "  cost county : $ = $55 over 1\n"
                           "price \"Mowing\" per ac of acres covers \"Work\"\n"
                           "  margin 20 %\n"
                           "price \"Permit\" lump covers \"Paper\"\n";

PriceAnswer by_block(const std::string& job) {
    Choices choices;
    choices.files = {{"mowing.rate", mowing}};
    const lang::Outcome<PriceAnswer> answer = ask(priced_ok(job, choices), {false, true});
    REQUIRE(answer);
    return *answer;
}

} // namespace

TEST_CASE("blocks share a price by what its costs have from each, to the cent") {
    const PriceAnswer answer =
        by_block("job \"Two\"\nmodel \"mowing\"\nblock creek \"Creek\"\n  set area = 30 ac\n"
                 "block bank \"Bank\"\n  set area = 10 ac\n  set pace = 1 ac/h\n"
                 "  set soil = clay\n");
    const BlockPrices& prices = answer.blocks;
    REQUIRE(prices.blocks.size() == 2);
    // Creek 6 h and 30 ac: 180 + 210 = $390. Bank 10 h and 10 ac: 300 + 70 = $370. The helper's two
    // days, $200, go by the same shares. In all $960, at 20 % of the price $1,200.
    CHECK(prices.blocks[0].cost == doctest::Approx(390 + 200 * 390.0 / 760));
    CHECK(prices.blocks[1].cost == doctest::Approx(370 + 200 * 370.0 / 760));
    // 120,000 cents by 390 and 370 of 760: 61,578.9 and 58,421.1.
    CHECK(prices.blocks[0].cents == 61'579);
    CHECK(prices.blocks[1].cents == 58'421);
    REQUIRE(prices.shared.size() == 1);
    CHECK(prices.shared[0].title == "Permit");
    CHECK(prices.shared[0].cents == 5'500);
    CHECK(prices.cents == 125'500);
    CHECK(prices.cents == answer.estimate.price_cents);
    CHECK(prices.blocks[0].label == "Creek");
    CHECK(prices.blocks[0].acres.value == 30);
    CHECK(prices.blocks[1].pace.text.empty()); // this model calls it otherwise
    CHECK(prices.blocks[0].soil.text == "silt");
    CHECK(prices.blocks[1].soil.text == "clay");
    CHECK(prices.blocks[1].depth.text == "3 ft");
    CHECK(prices.blocks[1].hours.value == 10);
    CHECK(prices.blocks[1].days.value == doctest::Approx(2 * 10.0 / 16));
    CHECK(prices.blocks[1].per_acre == doctest::Approx(58.421));
}

TEST_CASE("blocks whose acres cost otherwise are told to be billed at one rate") {
    const std::string creek = "job \"Two\"\nmodel \"mowing\"\nblock creek\n  set area = 30 ac\n";
    const BlockPrices apart =
        by_block(creek + "block bank\n  set area = 10 ac\n  set pace = 1 ac/h\n").blocks;
    // $1,200 for 40 ac, as above; by themselves $20.53/ac and $58.42/ac.
    REQUIRE(apart.one_rate.size() == 1);
    CHECK(apart.one_rate[0].title == "Mowing");
    CHECK(apart.one_rate[0].per == "ac");
    CHECK(apart.one_rate[0].rate == doctest::Approx(30));
    CHECK(by_block(creek + "block bank\n  set area = 10 ac\n").blocks.one_rate.empty());
    CHECK(by_block(creek).blocks.one_rate.empty());
}

TEST_CASE("hours however short are shared, and a block of no acres has no price an acre") {
    // Half an hour and a quarter of one: two thirds of the day and a third.
    const BlockPrices small =
        by_block("job \"Two\"\nmodel \"mowing\"\nblock creek\n  set area = 2.5 ac\n"
                 "block bank\n  set area = 1.25 ac\nblock none\n  set area = 0 ac\n")
            .blocks;
    REQUIRE(small.blocks.size() == 3);
    CHECK(small.blocks[0].days.value == doctest::Approx(2.0 / 3));
    CHECK(small.blocks[1].days.value == doctest::Approx(1.0 / 3));
    CHECK(small.blocks[1].per_acre > 0);
    CHECK(small.blocks[2].per_acre == 0);
    CHECK(small.blocks[2].cents == 0);
}

TEST_CASE("one block has all that rests on it, and a job without blocks has none") {
    const PriceAnswer one =
        by_block("job \"One\"\nmodel \"mowing\"\nblock creek \"Creek\"\n  set area = 30 ac\n");
    REQUIRE(one.blocks.blocks.size() == 1);
    // 6 h, 30 ac, a day: 180 + 210 + 100 = $490, at 20 % of the price $612.50.
    CHECK(one.blocks.blocks[0].cents == 61'250);
    CHECK(one.blocks.cents == one.estimate.price_cents);
    CHECK(by_block("job \"None\"\nmodel \"mowing\"\n").blocks.blocks.empty());
}

TEST_CASE("what blocks have adds up whatever the figures are") {
    for (int acres = 1; acres <= 40; ++acres) {
        const PriceAnswer answer = by_block(
            "job \"Three\"\nmodel \"mowing\"\nblock a\n  set area = " + std::to_string(acres) +
            " ac\nblock b\n  set area = 7 ac\nblock c\n  set area = 7 ac\n");
        std::int64_t cents = 0;
        for (const BlockPrice& block : answer.blocks.blocks)
            cents += block.cents;
        for (const BlockPrices::Shared& shared : answer.blocks.shared)
            cents += shared.cents;
        CHECK(cents == answer.estimate.price_cents);
        const std::int64_t apart =
            answer.blocks.blocks[1].cents - answer.blocks.blocks[2].cents; // alike but for a cent
        CHECK((apart == 0 || apart == 1));
    }
}

} // namespace block_prices_test
