#include <doctest/doctest.h>

#include <string>

#include "tests/support/resolve_text.h"

namespace resolve_prices_test {

using namespace acre;
using tests::resolve_ok;
using tests::resolve_text;

namespace {

const std::string model = R"(model "Prices"
noun tree
given area = 80 ac
given trees = 100 tree
part "Field"
  cost fuel : $/h = $100/h over 8 h
  cost tips : $/ac = $3/ac over area
part "Haul"
  cost lowbed : $/h = $200/h over 4 h
cost loose : $ = $5 over 2
)";

} // namespace

TEST_CASE("the steps of a price are plain lines, each the sum after it") {
    struct Row {
        std::string step, name, formula;
    };
    const std::vector<Row> rows = {
        {"overhead 9 %", "overhead", "(ripping.cost * (1 + 9))"},
        {"contingency 5 %", "contingency", "(ripping.cost * (1 + 5))"},
        {"markup 10 %", "markup", "(ripping.cost * (1 + 10))"},
        {"margin 15 %", "margin", "(ripping.cost / (1 - 15))"},
        {"margin 0.15", "margin", "(ripping.cost / (1 - 0.15))"},
        {"at least $6,500", "at_least", "max(ripping.cost, 6500)"},
        {"at least $90/ac", "at_least", "max(ripping.cost, (90 * ripping.quantity))"},
        {"at least $90/ha", "at_least", "max(ripping.cost, (90 * ripping.quantity))"},
        {"round up to $5/ac", "round_up",
         "when((ripping.quantity == 0), ripping.cost, (ceil((ripping.cost / ripping.quantity), 5) "
         "* ripping.quantity))"},
        {"round up to $100", "round_up", "ceil(ripping.cost, 100)"},
        {"round to $5/ac", "round_to",
         "when((ripping.quantity == 0), ripping.cost, (round((ripping.cost / ripping.quantity), 5) "
         "* ripping.quantity))"},
        {"round to $100", "round_to", "round(ripping.cost, 100)"},
        {"at least fuel * 2 h", "at_least", "max(ripping.cost, (fuel * 2))"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.step);
        const auto out =
            resolve_ok(model + "price \"Ripping\" per ac of area\n  " + row.step + "\n");
        CHECK(out.formula("ripping." + row.name) == row.formula);
        CHECK(out.formula("ripping.amount") == "ripping." + row.name);
        const lang::PriceItem& item = out.sheet.prices[0];
        REQUIRE(item.steps.size() == 1);
        CHECK(out.sources->text(item.steps[0].span) == row.step);
        CHECK(out.sources->text(out.sheet.nodes[out.sheet.lines[item.steps[0].line].value].span) ==
              row.step);
    }
}

TEST_CASE("steps go on from the one before; the second of a kind has a number") {
    const auto out = resolve_ok(model + "price \"Ripping\" per ac of area\n  overhead 9 %\n  "
                                        "overhead 2 %\n  margin 15 %\n  overhead 1 %\n");
    CHECK(out.formula("ripping.overhead_2") == "(ripping.overhead * (1 + 2))");
    CHECK(out.formula("ripping.margin") == "(ripping.overhead_2 / (1 - 15))");
    CHECK(out.formula("ripping.overhead_3") == "(ripping.margin * (1 + 1))");
    CHECK(out.formula("ripping.amount") == "ripping.overhead_3");
    CHECK(out.formula("ripping.rate") == "(ripping.amount / ripping.quantity)");
    CHECK(out.line("ripping.rate").unit_text == "$/ac");
    CHECK(out.line("ripping.quantity").unit_text == "ac");
}

TEST_CASE("items cover what they name, or what no other names; totals add them up") {
    const auto out =
        resolve_ok(model + "price \"Move\" lump covers \"Haul\"\nprice \"The ripping, 7 ft\" per "
                           "ac of area\n  margin 15 %\n"
                           "price \"Trees\" per tree of trees covers \"Field\", \"Haul\"\n");
    CHECK(out.formula("move.cost") == "sum(lowbed.amount)");
    CHECK(out.formula("the_ripping_7_ft.cost") == "sum(loose.amount)");
    CHECK(out.formula("trees.cost") == "sum(fuel.amount, tips.amount, lowbed.amount)");
    CHECK(out.formula("cost.total") ==
          "sum(fuel.amount, tips.amount, lowbed.amount, loose.amount)");
    CHECK(out.formula("price.total") == "sum(move.amount, the_ripping_7_ft.amount, trees.amount)");
    CHECK(out.formula("price.per_unit") == "(price.total / the_ripping_7_ft.quantity)");
    CHECK(out.formula("contribution.total") == "(price.total - cost.total)");
    CHECK(out.formula("contribution.share") == "(contribution.total / price.total)");
    CHECK(out.formula("overhead.total") == "0");
    CHECK(out.formula("profit.total") == "(contribution.total - overhead.total)");
    CHECK(out.formula("profit.share") == "(profit.total / price.total)");
    CHECK(out.line("profit.share").unit_text == "%");
    CHECK(out.sheet.prices[0].quantity == lang::none);
    CHECK(out.sheet.prices[0].rate == lang::none);
    CHECK(out.line("trees.rate").unit_text == "$/tree");
}

TEST_CASE("overhead is what its steps add, over all prices") {
    const auto out = resolve_ok(model + "price \"Move\" lump covers \"Haul\"\n  overhead 9 %\n"
                                        "price \"Rip\" per ac of area\n  contingency 3 %\n"
                                        "  overhead 5 %\n  margin 10 %\n  overhead 1 %\n");
    CHECK(out.formula("overhead.total") ==
          "sum((move.overhead - move.cost), (rip.overhead - rip.contingency), "
          "(rip.overhead_2 - rip.margin))");
}

TEST_CASE("up to the second version of the notation profit was price less direct cost") {
    tests::Choices choices;
    choices.notation = 2;
    const auto out = resolve_ok(model + "price \"Rip\" per ac of area\n  overhead 9 %\n", choices);
    CHECK(out.formula("profit.total") == "(price.total - cost.total)");
    CHECK(out.sheet.find("overhead.total") == lang::none);
    CHECK(out.sheet.find("contribution.total") == lang::none);
}

TEST_CASE("a price that covers nothing costs nothing; without a per there is no price per unit") {
    const auto out = resolve_ok("model \"m\"\nprice \"Flat\" lump\n  at least $500\n");
    CHECK(out.formula("flat.cost") == "0");
    CHECK(out.sheet.price_per_unit == lang::none);
    CHECK(out.sheet.find("price.per_unit") == lang::none);
    CHECK(resolve_ok("model \"m\"\ngiven a = 1 ft\n").sheet.cost_total == lang::none);
}

TEST_CASE("lines of the model read prices and totals by their names") {
    const auto out = resolve_ok(
        model +
        "x : $/ac = profit.total / area + ripping.rate\nprice \"Ripping\" per ac of area\n");
    CHECK(out.formula("x") == "((profit.total / area) + ripping.rate)");
}

TEST_CASE("the prices of used models do not count") {
    const tests::Files files = {{"haul.rate", "model \"Haul\"\ncost driver : $/h = $30/h over 2 "
                                              "h\nprice \"Haul\" lump\n  margin 20 %\n"}};
    const auto out = resolve_ok("model \"m\"\nuse \"haul\"\nprice \"All\" lump\n", {files});
    CHECK(out.sheet.prices.size() == 1);
    CHECK(out.formula("all.cost") == "sum(haul.driver.amount)");
    CHECK(resolve_ok("model \"m\"\nuse \"haul\"\nprice \"All\" lump covers \"Haul\"\n", {files})
              .formula("all.cost") == "sum(haul.driver.amount)");
}

TEST_CASE("slips in prices") {
    struct Row {
        std::string price, codes, title;
    };
    const std::vector<Row> rows = {
        {"price \"P\" per ac of area covers \"Feild\"", "N208", "no part named \"Feild\""},
        {"price \"P\" per ac of aera", "N201", "no line or given named `aera`"},
        {"price \"P\" per acer of area", "N203", "no unit named `acer`"},
        {"price \"P\" lump\n  overhead $3", "U311",
         "the step `overhead` needs a share, for example 15 %"},
        {"price \"P\" lump\n  at least 3", "U311", "the step `at least` needs money"},
        {"price \"P\" lump\n  at least $3/ac", "U311", "the step `at least` needs money"},
        {"price \"P\" per ac of area\n  round up to $3/tree", "U311",
         "the step `round up` needs money, or money per unit: $/ac"},
        {"price \"P\" lump\n  margin marign", "N201", "no line or given named `marign`"},
        {"price \"P\" lump\nprice \"p\" lump\n  margin 3 %", "N202",
         "two lines would be called `p.cost`"},
        {"price \"Fuel\" per ac of area", "N202", "two lines would be called `fuel.quantity`"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.price);
        const auto out = resolve_text(model + row.price + "\n");
        REQUIRE_MESSAGE(out.codes() == row.codes, out.rendered());
        CHECK(out.diagnostics.all()[0].title == row.title);
    }
}

} // namespace resolve_prices_test
