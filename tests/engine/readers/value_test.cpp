// Values against hand arithmetic, through the whole pipeline.
#include <cmath>
#include <string>

#include <doctest/doctest.h>

#include "tests/support/priced.h"

namespace value_test {

using namespace acre;
using namespace acre::tests;

namespace {

struct Row {
    const char* formula;
    const char* unit;
    double value;
};

double value_of_formula(const Row& row) {
    const std::string text =
        "model \"m\"\n"
        "choice soil_kind = sand | loam | clay\n"
        "given area = 40 ac\n"
        "given spacing = 5 ft\n"
        "given speed = 2 mi/h\n"
        "given zero = 0 h\n"
        "given soil : soil_kind = loam\n"
        "table burn (load : %) : gal/h  below hold  above error\n  20   8\n  60   21\n  100  38\n"
        "table fee (w : lb) : step $  below error  above hold\n  1000  12\n  5000  30\n"
        "x : " +
        std::string(row.unit) + " = " + row.formula + "\n";
    return priced_ok(text).value("x");
}

} // namespace

TEST_CASE("formulas give what hand arithmetic gives") {
    for (const Row& row : {
             Row{"area / spacing", "mi", 66},        // 40 * 43560 / 5 / 5280
             Row{"area / spacing / speed", "h", 33}, // 66 / 2
             Row{"area * $12.50/ac", "$", 500},      // no last digit lost
             Row{"18 % * $250", "$", 45},
             Row{"2 ^ 3 ^ 2 * 1", "1", 512}, // to the right
             Row{"-2 ^ 2 * 1", "1", -4},     // the sign binds weaker
             Row{"10 - 3 - 2 * 1", "1", 5},
             Row{"ceil(area / 7 ac)", "1", 6},
             Row{"ceil(411.20 $, $5)", "$", 415},
             Row{"round(25.025 $, $0.01)", "$", 25.03},
             Row{"floor(7.9 h, 2 h)", "h", 6},
             Row{"round(-2.5)", "1", -3},
             Row{"min(3 ft, 2 yd, 30 in)", "ft", 2.5},
             Row{"max(3 ft, 2 yd, 30 in)", "in", 72},
             Row{"abs(3 ft - 2 yd)", "ft", 3},
             Row{"sqrt(16 ft^2)", "ft", 4},
             Row{"sqrt(area)", "ft", std::sqrt(40 * 43560.0)},
             Row{"exp(0) + log(1)", "1", 1},
             Row{"sin(30 deg) + cos(60 deg)", "1", 1},
             Row{"tan(45 deg)", "1", 1},
             Row{"atan(1)", "deg", 45},
             Row{"burn(80 %)", "gal/h", 29.5},  // 21 + 17 / 2
             Row{"burn(1 - 0.4)", "gal/h", 21}, // 0.6 is 60 %
             Row{"burn(10 %)", "gal/h", 8},
             Row{"fee(4999 lb)", "$", 12},
             Row{"fee(3 ton)", "$", 30},
             Row{"when soil is clay then 1 when soil is loam then 2 otherwise 3", "1", 2},
             Row{"when soil is not loam then 1 otherwise 2", "1", 2},
             Row{"when not (speed > 3 mi/h) and area >= 40 ac then 1 otherwise 2", "1", 1},
             Row{"when speed == 10560 ft/h or 1 / (zero / 1 h) > 0 then 1 otherwise 2", "1",
                 1}, // decided by the left side
             Row{"when zero == 0 h then 5 h otherwise 1 h / (zero / 1 h)", "h",
                 5}, // the fault is not asked for
             Row{"$5/h * 90 min", "$", 7.5},
         }) {
        CAPTURE(std::string(row.formula));
        CHECK(value_of_formula(row) == doctest::Approx(row.value).epsilon(1e-14));
    }
    // These must be exact to the last digit: they are what people check.
    CHECK(value_of_formula({"area * $12.50/ac", "$", 0}) == 500);
    CHECK(value_of_formula({"round(25.025 $, $0.01)", "$", 0}) == 25.03);
    CHECK(value_of_formula({"area / spacing", "mi", 0}) == 66);
}

TEST_CASE("what has no answer is NaN") {
    for (const Row& row :
         {Row{"1 h / (zero / 1 h)", "h", 0}, Row{"burn(101 %)", "gal/h", 0},
          Row{"fee(999 lb)", "$", 0}, Row{"sqrt(0 ft^2 - 1 ft^2)", "ft", 0}, Row{"log(0)", "1", 0},
          Row{"exp(1000)", "1", 0}, Row{"min(1, log(0))", "1", 0},
          Row{"when log(0) > 1 then 1 otherwise 2", "1", 0}}) {
        CAPTURE(std::string(row.formula));
        CHECK(std::isnan(value_of_formula(row)));
    }
}

} // namespace value_test
