#include <doctest/doctest.h>

#include <random>
#include <string>

#include "lang/units/catalog.h"

namespace unit_test {

using namespace acre::lang;

namespace {

Unit unit(std::string_view text) {
    static const UnitCatalog catalog;
    UnitError error;
    const auto read = read_unit(text, catalog, error);
    REQUIRE_MESSAGE(read, "no unit: " << std::string(text));
    return *read;
}

Unit any_unit(std::mt19937_64& random) {
    static const std::vector<std::string_view> names = UnitCatalog().names();
    Unit out = unit(names[random() % names.size()]);
    if (random() % 2 == 0)
        out = divide(out, unit(names[random() % names.size()])).value_or(out);
    return out;
}

double convert(double x, std::string_view from, std::string_view to) {
    return conversion(unit(from), unit(to)).apply(x);
}

} // namespace

TEST_CASE("units multiply like the quantities they measure") {
    std::mt19937_64 random(3);
    for (int i = 0; i < 2000; ++i) {
        const Unit a = any_unit(random);
        const Unit b = any_unit(random);
        const Unit c = any_unit(random);
        const auto ab = multiply(a, b);
        const auto bc = multiply(b, c);
        if (!ab || !bc)
            continue;
        CHECK(*ab == *multiply(b, a));
        CHECK(divide(*ab, b) == a);
        CHECK(multiply(a, one) == a);
        CHECK(divide(a, a) == one);
        CHECK(multiply(*ab, c) == multiply(a, *bc));
        CHECK(power(a, 2) == multiply(a, a));
        CHECK(power(a, -1) == divide(one, a));
        CHECK(power(a, 0) == one);
        if (const auto squared = multiply(a, a))
            CHECK(square_root(*squared) == a);
    }
}

TEST_CASE("an exponent or a scale that does not fit is refused") {
    CHECK(power(unit("s"), 127));
    CHECK_FALSE(power(unit("s"), 128));
    CHECK_FALSE(multiply(*power(unit("s"), 100), *power(unit("s"), 28)));
    CHECK_FALSE(divide(*power(unit("s"), 100), *power(unit("s"), -28)));
    CHECK_FALSE(power(unit("mi"), 12)); // 63360^12 has 192 bits
    CHECK_FALSE(power(unit("s"), 1'000'000'000));
}

TEST_CASE("a square root needs even exponents and a scale with a root") {
    CHECK(square_root(unit("ft^2")) == unit("ft"));
    CHECK(square_root(unit("$^2/h^4")) == unit("$/h^2"));
    CHECK_FALSE(square_root(unit("ft")));
    CHECK_FALSE(square_root(unit("ac"))); // 43,560 has no whole root
    CHECK(square_root(one) == one);
}

// The constants that field books print, which no model has to.
TEST_CASE("derived constants of the trade come out of the definitions") {
    struct {
        double x;
        std::string_view from, to;
        double expected;
        std::string_view source;
    } const rows[] = {
        // ASABE EP496.3 clause 5 divides speed (mi/h) times width (ft) by 8.25 for ac/h (from
        // memory): 43,560 / 5,280.
        {8.25, "mi.ft/h", "ac/h", 1, "8.25"},
        // Draft (lbf) times speed (mi/h) over 375 is hp: 33,000 ft.lbf/min over 88 ft/min (from
        // memory).
        {375, "lbf.mi/h", "hp", 1, "375"},
        {1, "hp", "lbf.ft/min", 33000, "33,000"},
        {1, "mi/h", "ft/min", 88, "88"},
        {1, "ac", "ft^2", 43560, "43,560"},
        // 43,560 / 27: cubic yards in an acre-foot, printed as 1,613.33 (from memory).
        {1, "ac.ft", "cy", 43560.0 / 27, "1,613.33"},
        // Water one inch deep on an acre, printed as 27,154 gal (from memory).
        {1, "ac.in", "gal", 43560.0 * 144 / 231, "27,154"},
        {1, "ft^3", "gal", 1728.0 / 231, "7.48"},
        {1, "mi^2", "ac", 640, "a section"},
        {1, "lb/ft^3", "lb/cy", 27, "27"},
        {1, "km/h.m", "ha/h", 0.1, "the 10 of the metric field capacity"},
    };
    for (const auto& row : rows) {
        CAPTURE(row.source);
        CHECK(convert(row.x, row.from, row.to) == doctest::Approx(row.expected).epsilon(1e-15));
    }
}

TEST_CASE("whatever is exact in doubles converts exactly, both ways") {
    struct {
        double x;
        std::string_view from, to;
        double expected;
    } const rows[] = {
        {3, "ft", "in", 36},          {36, "in", "ft", 3},        {1, "in", "ft", 1.0 / 12},
        {18, "%", "1", 0.18},         {0.18, "1", "%", 18},       {90, "min", "h", 1.5},
        {8.25, "mi.ft/h", "ac/h", 1}, {33, "mi.ft/h", "ac/h", 4}, {7, "mo", "yr", 7.0 / 12},
        {49, "cent", "$", 0.49},      {1, "yr", "mo", 12},        {375, "lbf.mi/h", "hp", 1},
        {12.5, "$/ac", "$/ac", 12.5},
    };
    for (const auto& row : rows) {
        CAPTURE(row.from);
        CAPTURE(row.to);
        CHECK(convert(row.x, row.from, row.to) == row.expected);
    }
    CHECK(conversion(unit("mi/h"), unit("mph")).is_identity());
    CHECK(conversion(unit("lb"), unit("ton")).divide);
}

TEST_CASE("there and back again is the same within two roundings") {
    std::mt19937_64 random(5);
    const UnitCatalog catalog;
    for (const std::string_view a : catalog.names())
        for (const std::string_view b : catalog.names()) {
            if (unit(a).dim != unit(b).dim)
                continue;
            const double x = 1 + static_cast<double>(random() % 100000) / 7;
            CAPTURE(a);
            CAPTURE(b);
            CHECK(convert(convert(x, a, b), b, a) == doctest::Approx(x).epsilon(1e-15));
        }
}

TEST_CASE("a conversion whose factor does not fit exactly is still near") {
    const Unit small{Dim{}, {1, (Wide{1} << 100U) + 1}};
    const Unit large{Dim{}, {(Wide{1} << 100U) + 7, 1}};
    CHECK(conversion(small, large).apply(1) == doctest::Approx(0x1p-200));
    CHECK(conversion(large, small).apply(1) == doctest::Approx(0x1p200));
}

TEST_CASE("the year, the day and the shift are no number of hours") {
    CHECK(unit("yr").dim != unit("h").dim);
    CHECK(unit("day").dim != unit("h").dim);
    CHECK(unit("shift").dim != unit("day").dim);
    CHECK(unit("mo").dim == unit("yr").dim);
}

} // namespace unit_test
