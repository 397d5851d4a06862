#include "engine/words/billing.h"

#include <cmath>
#include <random>
#include <string>

#include <doctest/doctest.h>

#include "engine/words/money.h"
#include "lang/units/money.h"

namespace billing_test {

using namespace acre::engine;

namespace {

struct Row {
    double amount, quantity;
    bool counted;
    double billed;
    std::int64_t cents;
    std::string_view rate;
};

} // namespace

// Each worked out by hand.
TEST_CASE("the quantity is rounded first, and the rate times it is the amount") {
    for (const Row& row :
         {Row{203461.50, 14532.964285714286, true, 14533, 20346200, "$14.00/tree"},
          Row{20193.50, 62, false, 62, 2019350, "$325.7016/tree"}, // $325.70 gives 20,193.40
          Row{1000, 3, false, 3, 100000, "$333.333/tree"},         // $333.33 gives 999.99
          Row{6500, 62.004, false, 62, 650000, "$104.8387/tree"},  // a minimum stands
          Row{1240.08, 62.004, false, 62, 124000, "$20.00/tree"},
          Row{1241, 62.05, false, 62.05, 124100, "$20.00/tree"},
          Row{124, 12.4, true, 12.4, 12400, "$10.00/tree"},   // few loads: not to whole ones
          Row{5, 0.004, false, 0.004, 500, "$1,250.00/tree"}, // would be nothing
          // 4.68 is stated, though the quotient is off it by its last bit: 33.34 of it.
          Row{156.01716, 33.337, false, 33.34, 15603, "$4.68/tree"},
          Row{0, 40, true, 40, 0, "$0.00/tree"}, Row{-80.5, 40, false, 40, -8050, "-$2.0125/tree"},
          Row{20193.50, 26.56505117707799, false, 26.57, 2019350, "$760.0113/tree"}}) {
        CAPTURE(row.amount);
        CAPTURE(row.quantity);
        const Billed billed = bill(row.amount, row.quantity, row.counted);
        CHECK(billed.quantity == row.billed);
        CHECK(billed.cents == row.cents);
        CHECK(billed_rate_text(billed.rate, "tree") == row.rate);
    }
}

TEST_CASE("a quantity of half a hundredth rounds up, and counts from a hundred on are whole") {
    CHECK(bill(1, 0.005, false).quantity == 0.01);
    CHECK(bill(1, 62.005, false).quantity == 62.01);
    CHECK(bill(1, 62.00499, false).quantity == 62);
    CHECK(bill(1, 99.994, true).quantity == 99.99);
    CHECK(bill(1, 100, true).quantity == 100);
    CHECK(bill(1, 100.5, true).quantity == 101); // a half of one, up
    CHECK(bill(1, 100.49, true).quantity == 100);
    CHECK(bill(1, 100.49, false).quantity == 100.49);
    // Nothing to bill by: the amount stands, and the rate is what it comes to.
    const Billed none = bill(5, 0, false);
    CHECK(none.quantity == 0);
    CHECK(none.cents == 500);
    CHECK(std::isinf(none.rate));
    CHECK(std::isinf(bill(0.004, 0, false).rate)); // less than a cent of it
    const double beyond = 1e12 + 0.0078125;        // counts no more
    CHECK(bill(1, beyond, false).quantity == beyond);
    const Billed less = bill(10, -4, false);
    CHECK(less.quantity == -4);
    CHECK(less.rate == -2.5);
    // In steps of five cents: $3.33 a load, three loads, 9.99 is 10.00.
    CHECK(bill(9.99, 3, true, 5).cents == 1000);
    // Half a load at a stated $8: the amount goes with the quantity.
    CHECK(bill(4.004, 0.5005, false).cents == 400);
    CHECK(bill(4.004, 0.5005, false).rate == 8);
}

TEST_CASE("money that has no cents shows none") {
    const acre::lang::Currency before = acre::lang::shown_money();
    acre::lang::show_money({"JPY", "¥", 100});
    CHECK(billed_rate_text(1'400, "tree") == "¥1,400/tree");
    CHECK(billed_rate_text(1'400.25, "tree") == "¥1,400.25/tree");
    acre::lang::show_money(before);
}

TEST_CASE("the product of what is written is the amount to the cent") {
    std::mt19937_64 random(29);
    std::uniform_real_distribution<double> digits(0, 6);
    for (int i = 0; i < 50'000; ++i) {
        const double quantity = std::pow(10, digits(random));
        const double amount = std::pow(10, digits(random) + 1);
        const Billed billed = bill(amount, quantity, i % 2 == 0);
        CAPTURE(quantity);
        CAPTURE(amount);
        std::string written = billed_rate_text(billed.rate, "ac");
        std::erase(written, ',');
        const double rate = std::stod(written.substr(1));
        REQUIRE(to_cents(rate * billed.quantity) == billed.cents);
    }
}

} // namespace billing_test
