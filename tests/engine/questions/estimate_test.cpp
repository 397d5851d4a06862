#include "engine/questions/estimate.h"

#include <cstdlib>
#include <set>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "tests/support/priced.h"

namespace estimate_test {

using namespace acre;
using namespace acre::engine;
using namespace acre::tests;
using LangCode = acre::lang::Code;

namespace {

// Invented figures, chosen so that every step can be done by hand.
const std::string ripping = "model \"Ripping\"\n"
                            "noun move\n"
                            "choice pattern = one_way | crossed\n"
                            "given area = 80 ac \"net acres\"\n"
                            "given spacing = 5.5 ft \"from pull to pull\"\n"
                            "given method : pattern = one_way \"how the field is ripped\"\n"
                            "given speed = 2 mi/h \"speed in the ground\"\n"
                            "given wage = $30/h \"operator\"\n"
                            "given own_share = 15 %\n"
                            "travel : mi = when method is crossed then 2 * area / spacing "
                            "otherwise area / spacing \"way in the ground\"\n"
                            "machine_hours : h = travel / speed \"meter hours\"\n"
                            "moves : move = 1 move \"moves\"\n"
                            "part \"Work\"\n"
                            "  cost crawler : $/h = $200/h over machine_hours \"the crawler\"\n"
                            "  cost operator : $/h = wage over machine_hours\n"
                            "part \"Haul\"\n"
                            "  cost lowbed : $/move = $1,850/move over moves \"lowbed both ways\"\n"
                            "price \"Ripping\" per ac of area covers \"Work\"\n"
                            "  overhead 10 %\n"
                            "  margin own_share\n"
                            "  at least $6,500\n"
                            "price \"Move in\" lump covers \"Haul\"\n"
                            "  markup 10 %\n"
                            "caution \"call before ripping\"\n"
                            "caution when speed > 1.5 mi/h \"fast for one shank\"\n"
                            "caution when speed > 3 mi/h \"too fast\"\n";

std::set<LangCode> codes_of(const lang::Outcome<Estimate>& outcome) {
    std::set<LangCode> codes;
    for (const lang::Diagnostic& d : outcome.said.diagnostics.all())
        codes.insert(d.code);
    return codes;
}
Estimate estimate_ok(const std::string& text, const Choices& choices = {}) {
    const Priced p = priced_ok(text, choices);
    const lang::Outcome<Estimate> made = estimate(p);
    REQUIRE_MESSAGE(made.value.has_value(), lang::render(made.said.diagnostics, p.sources()));
    return *made;
}

} // namespace

TEST_CASE(
    "costs are rate times quantity, with their part, what they come to an acre and their share") {
    // By hand: 80 ac * 43,560 / 5.5 ft / 5,280 = 120 mi; / 2 mi/h = 60 h.
    const Estimate e = estimate_ok(ripping);
    REQUIRE(e.costs.size() == 3);
    const CostRow& crawler = e.costs[0];
    CHECK(crawler.name == "crawler");
    CHECK(crawler.label == "the crawler");
    CHECK(crawler.part == "Work");
    CHECK(crawler.rate_unit == "$/h");
    CHECK(crawler.quantity_unit == "h");
    CHECK(crawler.rate == 200);
    CHECK(crawler.quantity == doctest::Approx(60));
    CHECK(crawler.amount == doctest::Approx(12000));
    CHECK(crawler.per_unit == doctest::Approx(150));
    CHECK(crawler.share == doctest::Approx(12000 / 15650.0));
    CHECK(e.costs[1].amount == doctest::Approx(1800));
    CHECK(e.costs[2].part == "Haul");
    CHECK(e.costs[2].amount == 1850);
    CHECK(e.costs[0].share + e.costs[1].share + e.costs[2].share == doctest::Approx(1));
    CHECK(e.cost_total == doctest::Approx(15650));
}

TEST_CASE("the steps of a price add up, and money is rounded once") {
    const Estimate e = estimate_ok(ripping);
    REQUIRE(e.items.size() == 2);
    const ItemRow& item = e.items[0];
    CHECK(item.title == "Ripping");
    CHECK(item.name == "ripping");
    CHECK(item.per == "ac");
    CHECK(item.quantity == 80);
    CHECK(item.cost == doctest::Approx(13800));
    REQUIRE(item.steps.size() == 3);
    CHECK(item.steps[0].text == "overhead 10 %");
    CHECK(item.steps[0].added == doctest::Approx(1380));
    CHECK(item.steps[1].text == "margin own_share");
    CHECK(item.steps[1].shown == "margin 15 %");
    CHECK(item.steps[1].sum == doctest::Approx(15180 / 0.85)); // 17,858.8235…
    CHECK(item.steps[2].added == 0);
    CHECK(item.cents == 1785882);
    CHECK(item.rate == doctest::Approx(17858.8235294 / 80));
    CHECK(e.items[1].per.empty());
    CHECK(e.items[1].cents == 203500);
    CHECK(e.price_cents == 1785882 + 203500);
    CHECK(e.per == "ac");
    CHECK(e.per_quantity == 80);
    CHECK(e.price_per_unit == doctest::Approx((17858.8235294 + 2035) / 80));
}

TEST_CASE("a floor and a rounding of a price show what they add") {
    Choices small;
    small.sets = {{"area", "20 ac"}};
    const Estimate e = estimate_ok(
        ripping + "price \"Stakes\" lump covers \"Stakes\"\n  round up to $25\npart \"Stakes\"\n"
                  "  cost flags : $ = $3.10 over 11\n",
        small);
    // 15 h * $230 * 1.1 / 0.85 = 4,464.71, so the floor adds 2,035.29.
    CHECK(e.items[0].steps[2].text == "at least $6,500");
    CHECK(e.items[0].steps[2].added == doctest::Approx(2035.294118));
    CHECK(e.items[0].cents == 650000);
    CHECK(e.items[2].steps[0].added == doctest::Approx(50 - 34.10));
    CHECK(e.items[2].cents == 5000);
}

TEST_CASE("the quantities shown are those that carry the price, and what they rest on") {
    const Estimate e = estimate_ok(ripping);
    std::vector<std::string> names;
    for (const QuantityRow& row : e.quantities)
        names.push_back(row.name);
    // In the order written; no money, and `method` is behind travel, not behind the hours.
    CHECK(names == std::vector<std::string>{"area", "speed", "travel", "machine_hours", "moves"});
    CHECK(e.quantities[2].value == doctest::Approx(120));
    CHECK(e.quantities[2].unit == "mi");
    CHECK(e.quantities[2].label == "way in the ground");
}

TEST_CASE("cautions are those that always hold, those that are true, and functions used where "
          "nobody tested them") {
    const Estimate e = estimate_ok(
        ripping +
        "define pull (depth : ft, width : in) : lbf = depth / 1 ft * width / 1 in * 900 lbf\n"
        "  tested depth 1 ft .. 7.2 ft\n  tested width 2 in .. 12 in\n"
        "given depth = 7.5 ft\n"
        "drag : lbf = pull(depth, 3 in)\n"
        "aside : lbf = pull(9 ft, 3 in)\n"
        "part \"Draft\"\n  cost pulling : $ = $1 over drag / 1 lbf\n"
        "price \"Draft\" lump covers \"Draft\"\n");
    std::vector<std::string> texts;
    for (const CautionRow& row : e.cautions)
        texts.push_back(row.text);
    CHECK(texts == std::vector<std::string>{
                       "call before ripping", "fast for one shank",
                       "pull: depth 7.5 ft is outside its tested range 1 ft .. 7.2 ft"});
    CHECK_FALSE(e.cautions[1].tested_range);
    CHECK(e.cautions[2].tested_range);
}

TEST_CASE("a model without a price cannot price a job") {
    Priced p = priced_ok("model \"Crawler\"\ngiven speed = 2 mi/h\nway : mi = speed * 3 h\n");
    CHECK(codes_of(estimate(p)).contains(LangCode::I609));
    CHECK_FALSE(estimate(p).value.has_value());
}

TEST_CASE("a fault stops the price, a warning does not") {
    Choices wrong;
    wrong.sets = {{"area", "0 ac"}};
    Priced p = priced_ok(ripping, wrong);
    CHECK(codes_of(estimate(p)).contains(LangCode::E508));
    CHECK_FALSE(estimate(p).value.has_value());

    const std::string with_swing =
        ripping +
        "given trips = 9 move swing 1 move .. 4 move\npart \"Crew\"\n"
        "  cost hands : $/move = $50/move over trips\nprice \"Crew\" lump covers \"Crew\"\n";
    Priced q = priced_ok(with_swing);
    CHECK(codes_of(estimate(q)).contains(LangCode::L802));
    CHECK(estimate(q).value.has_value());
}

TEST_CASE("a price too large for cents is an error, not a wrong number") {
    Choices huge;
    huge.sets = {{"area", "1e13 ac"}};
    Priced p = priced_ok(ripping, huge);
    const lang::Outcome<Estimate> none = estimate(p);
    CHECK_FALSE(none.value.has_value());
    REQUIRE(none.said.diagnostics.error_count() == 1);
    CHECK(none.said.diagnostics.all().back().title ==
          "the price of \"Ripping\" is too large to be kept to the cent");
}

TEST_CASE("the acres of a priced acre move the price as hand arithmetic says") {
    for (const double acres : {10.0, 40.0, 152.0, 640.0}) {
        Choices choices;
        choices.sets = {{"area", std::to_string(acres) + " ac"}};
        const Estimate e = estimate_ok(ripping, choices);
        const double hours = acres * 43560 / 5.5 / 5280 / 2;
        const double price = std::max(6500.0, hours * 230 * 1.1 / 0.85);
        CHECK(std::llabs(e.items[0].cents - static_cast<std::int64_t>(price * 100 + 0.5)) <= 1);
    }
}

} // namespace estimate_test
