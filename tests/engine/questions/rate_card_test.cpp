// A price list of a model whose rates can be worked out by hand.
#include "engine/questions/rate_card.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "tests/support/priced.h"

namespace rate_card_test {

using namespace acre;
using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

const std::string model = "model \"Ripping\"\n"
                          "given area = 10 ac  \"acres\"\n"
                          "given depth = 5 ft  \"depth\"  within 1 ft .. 7 ft\n"
                          "given rate = $100/h  \"rate\"\n"
                          "given miles = 10 mi  \"miles to the ranch\"\n"
                          "given method = one_way | both  \"how\"\n"
                          "hours : h = area * depth * (when method is both then 2 otherwise 1) / "
                          "10 ac / 1 ft * 1 h\n"
                          "part \"Ripping\"\n  cost machine : $/h = rate over hours\n"
                          "part \"Haul\"\n  cost truck : $/mi = $5/mi over miles\n"
                          "require depth < 6.5 ft \"too deep\"\n"
                          "price \"Ripping\" per ac of area covers \"Ripping\"\n"
                          "  markup 20 %\n"
                          "  at least $500\n"
                          "price \"Move\" lump covers \"Haul\"\n";

CardQuestion question() {
    CardQuestion out;
    out.rows = {"depth", {4, 5, 7}};
    out.columns = {"method", {0, 1}};
    return out;
}

} // namespace

TEST_CASE("rates, what they leave, bands, minimum and what the card assumes, by hand") {
    const Priced job = priced_ok(model);
    CardQuestion asked = question();
    asked.bands = CardAlong{"miles", {10, 30}};
    const auto card = ask(job.job(), asked);
    REQUIRE_MESSAGE(card.value.has_value(), card.said.diagnostics.all().front().title);
    CHECK(card->item == "Ripping");
    CHECK(card->unit == "$/ac");
    CHECK(card->rows.places == std::vector<std::string>{"4 ft", "5 ft", "7 ft"});
    CHECK(card->columns.places == std::vector<std::string>{"one_way", "both"});
    CHECK(card->columns.is_choice);
    CHECK(card->columns.label == "how");
    REQUIRE(card->pages.size() == 1);
    // $100/h over 4 h of 10 ac is $40/ac, $48 with the markup; the least of $500 makes it $50.
    const CardPage& page = card->pages[0];
    CHECK(page.rate[0] == doctest::Approx(50));
    CHECK(page.margin[0] == doctest::Approx(0.2));
    CHECK(page.rate[1] == doctest::Approx(96));
    CHECK(page.rate[3] == doctest::Approx(120));
    CHECK(page.margin[3] == doctest::Approx(1 - 100.0 / 120));
    CHECK(std::isnan(page.rate[4])); // 7 ft is refused
    CHECK(card->minimum == 500);
    REQUIRE(card->bands);
    CHECK(card->bands->item == "Move");
    CHECK(card->bands->amount == std::vector<double>{50, 150});
    // What is varied is not assumed.
    for (const CardFact& fact : card->fixed)
        CHECK((fact.label != "depth" && fact.label != "how"));
}

TEST_CASE("a cell says why it has no rate, and which caution it brings up") {
    const Priced job = priced_ok(model + "caution when depth > 4.5 ft  \"deep: probe\"\n"
                                         "caution \"call before you dig\"\n");
    const auto card = ask(job.job(), question());
    REQUIRE(card.value.has_value());
    // Rows 4, 5 and 7 ft by two columns; 7 ft is refused. What every cell says is no note.
    CHECK(card->notes == std::vector<std::string>{"deep: probe", "too deep"});
    const std::vector<std::vector<std::size_t>> expected = {{}, {}, {0}, {0}, {1}, {1}};
    CHECK(card->pages[0].notes == expected);
}

TEST_CASE("a cell past either end of a range that the card itself moves says so") {
    const Priced job = priced_ok("model \"m\"\ngiven depth = 3.5 ft  \"depth\"\n"
                                 "given wide = 5 ft  \"pulls\"  within depth / 2 .. 2 * depth\n"
                                 "given area = 10 ac  \"acres\"\n"
                                 "cost work : $/ft = $1/ft over depth + wide\n"
                                 "price \"Rip\" per ac of area\n");
    CardQuestion asked;
    asked.rows = {"depth", {3, 4}};      // at 3 ft pulls are 1.5 ft to 6 ft apart,
    asked.columns = {"wide", {7, 1.75}}; // at 4 ft 2 ft to 8 ft
    const auto card = ask(job.job(), asked);
    REQUIRE(card.value.has_value());
    CHECK(card->notes ==
          std::vector<std::string>{"`wide` would be 7 ft, outside its allowed range",
                                   "`wide` would be 1.75 ft, outside its allowed range"});
    const std::vector<std::vector<std::size_t>> expected = {{0}, {}, {}, {1}};
    CHECK(card->pages[0].notes == expected);
}

TEST_CASE("only what holds for every cell is a term of the card") {
    const Priced job = priced_ok("model \"m\"\npart \"Field\"\n"
                                 "  given depth = 5 ft  \"depth\"\n"
                                 "  given wide = 7 ft  \"pulls\"\n"
                                 "  given across : ft = wide  \"pulls, crosswise\"\n"
                                 "  given area = 10 ac  \"acres\"\n"
                                 "cost work : $/ft = $1/ft over depth + wide + across\n"
                                 "price \"Rip\" per ac of area\n");
    CardQuestion asked;
    asked.rows = {"depth", {4, 5}};
    asked.columns = {"wide", {7, 8}};
    const auto card = ask(job.job(), asked);
    REQUIRE(card.value.has_value());
    REQUIRE(card->fixed.size() == 1);
    CHECK(card->fixed[0].label == "acres");
}

TEST_CASE("pages, and rates rounded up to whole multiples") {
    const Priced job = priced_ok(model);
    CardQuestion asked;
    asked.rows = {"depth", {5}};
    asked.columns = {"area", {10, 20}};
    asked.pages = CardAlong{"method", {1, 0}};
    asked.round = 7;
    const auto card = ask(job.job(), asked);
    REQUIRE(card);
    REQUIRE(card->pages.size() == 2);
    REQUIRE(card->along_pages);
    CHECK(card->along_pages->places == std::vector<std::string>{"both", "one_way"});
    CHECK(card->pages[0].rate[0] == doctest::Approx(126)); // of 120
    CHECK(card->pages[1].rate[1] == doctest::Approx(63));  // of 60
}

TEST_CASE("a card that cannot be says why") {
    const Priced job = priced_ok(model);
    CardQuestion asked = question();
    asked.item = "move";
    CHECK(ask(job.job(), asked).said.diagnostics.all().front().code == lang::Code::Q001);
    asked = question();
    asked.rows.at.assign(max_card_cells, 5);
    CHECK(ask(job.job(), asked).said.diagnostics.all().front().code == lang::Code::Q006);
    asked = question();
    asked.rows.given = "nosuch";
    CHECK_FALSE(ask(job.job(), asked));
    CHECK(*card_unit(job.job(), "") == "$/ac");
    CHECK_FALSE(card_unit(job.job(), "move"));
}

} // namespace rate_card_test
