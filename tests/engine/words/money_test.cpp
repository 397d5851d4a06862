#include "engine/words/money.h"

#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include <doctest/doctest.h>

namespace money_test {

using namespace acre::engine;

TEST_CASE("dollars become cents half away from zero, as a calculator shows them") {
    struct Row {
        double dollars;
        std::int64_t cents;
    };
    for (const Row& row :
         {Row{25.025, 2503}, // the double is 25.02499999999999857891452847979962825775146484375
          Row{-25.025, -2503}, Row{1.005, 101}, // and this one 1.00499999999999989…
          Row{0.005, 1}, Row{-0.005, -1}, Row{0.0049, 0}, Row{25.0249, 2502}, Row{25.024999, 2502},
          Row{0, 0}, Row{-0.0, 0}, Row{412.80, 41280}, Row{8.99e13, 8990000000000000},
          Row{1234567.885, 123456789}, Row{80123456789.125, 8012345678913}}) {
        CAPTURE(row.dollars);
        CHECK(to_cents(row.dollars) == row.cents);
    }
}

TEST_CASE("every half cent that a person can write rounds up") {
    // Read from decimal text, so that the test does not rest on the arithmetic it checks.
    for (std::int64_t i = 0; i < 100'000; ++i) {
        const std::string text =
            std::to_string(i * 37 / 100) + "." + std::to_string(i * 37 % 100 + 100).substr(1) + "5";
        REQUIRE_MESSAGE(to_cents(std::stod(text)) == i * 37 + 1, text);
    }
}

TEST_CASE("a sum of twenty thousand half cents, a hair low by its additions, still rounds up") {
    double sum = 0;
    for (int i = 0; i < 20'435; ++i)
        sum += 0.005;
    CHECK(sum < 102.175); // 20,435 times half a cent
    CHECK(to_cents(sum) == 10'218);
    CHECK(to_cents(-sum) == -10'218);
}

TEST_CASE("a hundred thousand random quotes add up to the cent") {
    std::mt19937_64 random(11);
    std::uniform_real_distribution<double> acres(0.1, 2'000);
    std::uniform_real_distribution<double> rate(0.01, 1'500);
    for (int quote = 0; quote < 100'000; ++quote) {
        std::int64_t total = 0;
        double unrounded = 0;
        const int lines = 1 + static_cast<int>(random() % 8);
        for (int i = 0; i < lines; ++i) {
            const double amount = acres(random) * rate(random);
            total += to_cents(amount);
            unrounded += amount;
        }
        // Each line is off by half a cent at most, and the total is the sum of what the lines show.
        REQUIRE(std::abs(static_cast<double>(total) - unrounded * 100) <= 0.5 * lines + 1e-3);
    }
}

} // namespace money_test
