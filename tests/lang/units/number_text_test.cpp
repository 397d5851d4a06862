#include <cmath>
#include <limits>

#include <doctest/doctest.h>

#include "lang/units/number_text.h"

namespace number_text_test {

using namespace acre::lang;

TEST_CASE("a number keeps the digits that carry meaning") {
    struct Row {
        double value;
        const char* text;
    };
    for (const Row& row : {Row{0, "0"},
                           Row{-0.0, "0"},
                           Row{7, "7"},
                           Row{1850000, "1,850,000"},
                           Row{43560, "43,560"},
                           Row{12.125, "12.125"},
                           Row{0.1 + 0.2, "0.3"},
                           Row{19.8723456, "19.87"},
                           Row{0.98918367, "0.9892"},
                           Row{1234.5, "1,234.5"},
                           Row{1234567.89, "1,234,568"},
                           Row{999.96001, "1,000"},
                           Row{-3.25, "-3.25"},
                           Row{0.0001, "0.0001"},
                           Row{2.5e-7, "2.5e-7"},
                           Row{1.0 / 3e6, "3.333e-7"},
                           Row{2e15, "2e15"},
                           Row{0.000099, "9.9e-5"}, // below 0.0001, and from 1e15 on
                           Row{1e15, "1e15"},
                           Row{999'999'999'999'999, "999,999,999,999,999"},
                           Row{123456789012, "123,456,789,012"},
                           Row{1e12, "1,000,000,000,000"}, // and not one more
                           Row{std::numeric_limits<double>::quiet_NaN(), "no answer"},
                           Row{-INFINITY, "-infinite"}})
        CHECK(number_text(row.value) == row.text);
}

TEST_CASE("a quantity says its unit where people say it") {
    struct Row {
        double value;
        const char* unit;
        const char* text;
    };
    for (const Row& row :
         {Row{80, "ac", "80 ac"}, Row{18, "%", "18 %"}, Row{4.35, "$/gal", "$4.35/gal"},
          Row{12.5, "$/ac", "$12.50/ac"}, Row{1850000, "$", "$1,850,000"},
          Row{412.8, "$", "$412.80"}, Row{-12.5, "$/ac", "-$12.50/ac"}, Row{34, "$/h", "$34.00/h"},
          Row{0.034567891, "$/ft", "$0.03457/ft"}, Row{4.3512, "$/gal", "$4.3512/gal"},
          Row{594.3333333, "$/ac", "$594.33/ac"}, Row{1234.56789, "$/h", "$1,234.57/h"},
          Row{0.85, "1", "0.85"}, Row{3, "", "3"}, Row{12, "$.ft", "12 $.ft"},
          Row{0.5000001, "$/ac", "$0.50/ac"}, Row{0.1200001, "1", "0.12"},
          Row{0.5, "$/ac", "$0.50/ac"}, Row{0.29999999999, "$/ac", "$0.30/ac"}})
        CHECK(quantity_text(row.value, row.unit) == row.text);
}

TEST_CASE("in a sentence a noun has its plural, a sign has none") {
    struct Row {
        double value;
        const char* unit;
        const char* text;
    };
    for (const Row& row :
         {Row{30, "day", "30 days"}, Row{1, "day", "1 day"}, Row{1.5, "shift", "1.5 shifts"},
          Row{-1, "day", "-1 day"}, Row{0, "tree", "0 trees"}, Row{3, "bunch", "3 bunches"},
          Row{3000, "tree", "3,000 trees"}, Row{40, "ac", "40 ac"}, Row{3, "gal", "3 gal"},
          Row{2, "h", "2 h"}, Row{7.5, "clock", "7:30 am"}, Row{3, "gal/h", "3 gal/h"},
          Row{4.5, "$/gal", "$4.50/gal"}, Row{2, "ton", "2 tons"}, Row{12, "deg", "12 deg"},
          Row{1.5, "1/day", "1.5 per day"}})
        CHECK(spoken_text(row.value, row.unit) == row.text);
}

TEST_CASE("money in a column has cents, and no minus before nothing") {
    CHECK(money_text(1234.5) == "$1,234.50");
    CHECK(money_text(-1234567.891) == "-$1,234,567.89");
    CHECK(money_text(25.025) == "$25.03"); // the double is 25.02499...
    CHECK(money_text(268.125) == "$268.13");
    CHECK(quantity_text(983.9999999999999, "$") == "$984");
    CHECK(money_text(-0.001) == "$0.00");
    CHECK(money_text(1e300) == "$1e300");
    CHECK(money_text(999'999'999'999'999) == "$999,999,999,999,999.00");
    CHECK(money_text(1e15) == "$1e15");
    CHECK(cents_text(123450) == "$1,234.50");
    CHECK(cents_text(-7) == "-$0.07");
    CHECK(cents_text(std::numeric_limits<std::int64_t>::min()) == "-$92,233,720,368,547,758.08");
}

} // namespace number_text_test
