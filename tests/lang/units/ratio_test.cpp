#include <doctest/doctest.h>

#include <limits>
#include <random>

#include "lang/units/ratio.h"

namespace ratio_test {

using namespace acre::lang;

namespace {

constexpr Wide most = std::numeric_limits<Wide>::max();

Ratio any_ratio(std::mt19937_64& random) {
    const auto part = [&] { return Wide{(random() >> (random() % 50 + 14)) + 1}; };
    return *multiply(Ratio{part(), 1}, Ratio{1, part()});
}

} // namespace

TEST_CASE("decimals are read exactly") {
    struct {
        std::string_view text;
        std::uint64_t num, den;
    } const rows[] = {{"12.5", 25, 2},
                      {"1,100", 1100, 1},
                      {"1,850,000", 1850000, 1},
                      {"2.5e-3", 1, 400},
                      {"0.0254", 127, 5000},
                      {"0.45359237", 45359237, 100000000},
                      {"7", 7, 1},
                      {".5", 1, 2},
                      {"5.", 5, 1},
                      {"1e3", 1000, 1},
                      {"2.50000000000000000000000000000000", 5, 2}};
    for (const auto& row : rows) {
        CAPTURE(row.text);
        const auto ratio = read_ratio(row.text);
        REQUIRE(ratio);
        CHECK(*ratio == Ratio{row.num, row.den});
    }
    for (const std::string_view bad : {"",
                                       ".",
                                       "0",
                                       "0.000",
                                       "-1",
                                       "+1",
                                       "1 2",
                                       "abc",
                                       "1e",
                                       "1e+",
                                       "12x",
                                       "1.2.3",
                                       "1,10",
                                       ",100",
                                       "1,1000",
                                       "1e401",
                                       "1e-401",
                                       "1e39",
                                       "9999999999999999999999999999999999999999999",
                                       "1,000.5,000"}) {
        CAPTURE(bad);
        CHECK_FALSE(read_ratio(bad));
    }
}

TEST_CASE("products and quotients keep to lowest terms and to the laws of fractions") {
    std::mt19937_64 random(7);
    for (int i = 0; i < 2000; ++i) {
        const Ratio a = any_ratio(random);
        const Ratio b = any_ratio(random);
        const auto ab = multiply(a, b);
        REQUIRE(ab); // at most 50 bits a part, so products fit
        CHECK(*ab == *multiply(b, a));
        CHECK(*divide(*ab, b) == a);
        CHECK(*divide(a, a) == Ratio{});
        CHECK(*multiply(*divide(a, b), *divide(b, a)) == Ratio{});
        CHECK(*square_root(*multiply(a, a)) == a);
        CHECK(*power(a, 2) == *multiply(a, a));
        CHECK(*power(a, -1) == *divide(Ratio{}, a));
        CHECK(power(a, 0) == Ratio{});
    }
}

TEST_CASE("what does not fit is refused, what fits on the way out is not") {
    CHECK(multiply(Ratio{most, 1}, Ratio{1, most}) == Ratio{});
    CHECK(multiply(Ratio{most, 1}, Ratio{1, 1}) == Ratio{most, 1});
    CHECK_FALSE(multiply(Ratio{most, 1}, Ratio{2, 1}));
    CHECK_FALSE(multiply(Ratio{1, most}, Ratio{1, 2}));
    CHECK(multiply(Ratio{most, 3}, Ratio{3, 1}) == Ratio{most, 1});
    CHECK(power(Ratio{2, 1}, 127));
    CHECK_FALSE(power(Ratio{2, 1}, 128));
    CHECK(power(Ratio{2, 1}, -127));
    CHECK(power(Ratio{1, 1}, std::numeric_limits<int>::min()) == Ratio{});
}

TEST_CASE("a square root is exact or it is none") {
    CHECK(square_root(Ratio{4, 9}) == Ratio{2, 3});
    CHECK_FALSE(square_root(Ratio{2, 1}));
    CHECK_FALSE(square_root(Ratio{1, 8}));
    const Wide big = Wide{0xFFFFFFFFFFFFFFFFULL};
    CHECK(square_root(Ratio{big * big, 1}) == Ratio{big, 1});
    CHECK_FALSE(square_root(Ratio{most, 1}));
}

TEST_CASE("a ratio becomes the nearest double") {
    CHECK(to_double(Ratio{1, 3}) == 1.0 / 3.0);
    CHECK(to_double(Ratio{most, 1}) == 0x1p128);
    CHECK(to_double(Ratio{1, most}) == 0x1p-128);
    CHECK(to_double(Ratio{most, most - 1}) == 1.0);
    // Halfway between two doubles, and just above it: to the even one, and up.
    const Wide half = (Wide{1} << 54U) + 2; // between 2^54 and 2^54 + 4
    CHECK(to_double(Ratio{half, 1}) == 0x1p54);
    CHECK(to_double(*multiply(Ratio{half, 1}, Ratio{3000000001ULL, 3000000000ULL})) > 0x1p54);
    CHECK(to_double(Ratio{(Wide{1} << 70U) + 1, 1}) == 0x1p70);
    // The long way agrees with one division where that is exact: parts of 53 bits, both blown up by
    // a shared factor.
    std::mt19937_64 random(11);
    for (int i = 0; i < 2000; ++i) {
        const auto num = static_cast<double>((random() >> 11U) | 1U);
        const auto den = static_cast<double>((random() >> 11U) | 1U);
        const Wide factor = (Wide{1} << 60U) + 1;
        // Not in lowest terms: only to_double takes such a one.
        CHECK(to_double(Ratio{static_cast<Wide>(num) * factor, static_cast<Wide>(den) * factor}) ==
              num / den);
    }
}

} // namespace ratio_test
