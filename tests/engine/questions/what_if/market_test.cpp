#include <doctest/doctest.h>

#include "engine/questions/what_if/market.h"
#include "tests/support/priced.h"

namespace market_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

// $300 an acre and $2,000 to get there, 10 % overhead, 20 % of the price as margin.
const std::string model = "model \"m\"\ngiven area = 40 ac  \"acres\"  within 1 ac .. 100 ac\n"
                          "part \"Work\"\n  cost labor : $/ac = $300/ac over area\n"
                          "part \"Haul\"\n  cost truck : $ = $2,000 over 1\n"
                          "price \"Work\" per ac of area covers \"Work\"\n  overhead 10 %\n"
                          "  margin 20 %\nprice \"Move\" lump covers \"Haul\"\n  overhead 10 %\n"
                          "  margin 20 %\n";

MarketAnswer ask(const std::string& text, double rate) {
    const Priced job = priced_ok(text);
    MarketQuestion question;
    question.given = "area";
    question.rate = rate;
    const auto answer = acre::engine::ask(job.job(), question);
    REQUIRE_MESSAGE(answer.value.has_value(), acre::tests::title_of(answer.said));
    return *answer;
}

} // namespace

TEST_CASE("three thresholds at a market price, by hand") {
    const MarketAnswer answer = ask(model, 500);
    REQUIRE(answer.thresholds.size() == 3);
    CHECK(answer.per == "ac");
    // $500 a acre pays $300 a + $2,000 from 10 ac on; $330 a + $2,200 from 2,200 / 170 ac on; the
    // price itself, $412.50 a + $2,750, from 2,750 / 87.50 ac on.
    const double from[] = {10, 2200 / 170.0, 2750 / 87.5};
    for (std::size_t i = 0; i < 3; ++i) {
        CAPTURE(i);
        REQUIRE(answer.thresholds[i].covered.size() == 1);
        CHECK(answer.thresholds[i].covered[0].low == doctest::Approx(from[i]));
        CHECK(answer.thresholds[i].covered[0].high == 100);
    }
}

TEST_CASE("a market price that never pays, and one that always does") {
    const MarketAnswer poor = ask(model, 320);
    REQUIRE(poor.thresholds[0].covered.size() == 1); // $20 a pays the haul at 100 ac, just
    CHECK(poor.thresholds[0].covered[0].low == doctest::Approx(100));
    CHECK(poor.thresholds[1].covered.empty());
    CHECK(poor.thresholds[2].covered.empty());
    const MarketAnswer rich = ask(model, 5'000);
    for (const MarketThreshold& threshold : rich.thresholds) {
        REQUIRE(threshold.covered.size() == 1);
        CHECK(threshold.covered[0].low == 1);
    }
}

TEST_CASE("a second haul from sixty acres on takes the profit away for a while") {
    std::string text = model;
    text.replace(text.find("$2,000 over 1"), 13, "$8,000 * ceil(area / 60 ac) over 1");
    // $500 a against $300 a + $8,000: from 40 ac; $16,000 beyond 60 ac: from 80 ac.
    const MarketAnswer answer = ask(text, 500);
    const auto& covered = answer.thresholds[0].covered;
    REQUIRE(covered.size() == 2);
    CHECK(covered[0].low == doctest::Approx(40));
    CHECK(covered[0].high == doctest::Approx(60));
    CHECK(covered[1].low == doctest::Approx(80));
}

TEST_CASE("half a dollar short at every acre is short") {
    std::string text = model;
    text.replace(text.find("$2,000 over 1"), 13, "$0.50 over 1");
    CHECK(ask(text, 300).thresholds[0].covered.empty());
    CHECK(ask(text, 301).thresholds[0].covered.size() == 1);
}

TEST_CASE("a model of lump sums has no price per unit") {
    const Priced job = priced_ok("model \"m\"\ngiven area = 4 ac  \"acres\"  within 1 ac .. 9 ac\n"
                                 "cost work : $/ac = $300/ac over area\nprice \"All\" lump\n");
    MarketQuestion question;
    question.given = "area";
    const auto answer = acre::engine::ask(job.job(), question);
    CHECK_FALSE(answer.value.has_value());
    CHECK(acre::tests::title_of(answer.said) == "the model has no price per unit");
}

} // namespace market_test
