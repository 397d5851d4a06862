#include "engine/plan/operations.h"

#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>

#include <doctest/doctest.h>

#include "engine/plan/math_functions.h"
#include "engine/plan/opcodes.h"

namespace operations_test {

using namespace acre::engine;

namespace {

constexpr double poison = std::numeric_limits<double>::quiet_NaN();
constexpr double largest = std::numeric_limits<double>::max();

bool is_nan(double x) {
    return std::isnan(x);
}
double units_apart(double a, double b) {
    return std::fabs(
        static_cast<double>(std::bit_cast<std::int64_t>(a) - std::bit_cast<std::int64_t>(b)));
}

} // namespace

TEST_CASE("poison goes through every operation, from either side") {
    int tried = 0;
    for (std::size_t i = 0; i < op_traits.size(); ++i) {
        const auto code = static_cast<OpCode>(i);
        const OpKind kind = kind_of(code);
        // What decides by its first operand, or reads more than its operands, is tried below.
        if (kind == OpKind::Source || kind == OpKind::Lookup || kind == OpKind::Branch ||
            code == OpCode::And || code == OpCode::Or)
            continue;
        CAPTURE(traits_of(code).name);
        ++tried;
        CHECK(is_nan(apply(code, poison, 0, 0)));
        if (traits_of(code).reads.size() == 1)
            continue;
        CHECK(is_nan(apply(code, poison, 1, 0)));
        CHECK(is_nan(apply(code, 1, poison, 0)));
    }
    CHECK(tried == 26);
}

TEST_CASE("what has no answer is poison, never infinity") {
    CHECK(is_nan(apply(OpCode::Divide, 1, 0, 0)));
    CHECK(is_nan(apply(OpCode::Divide, 0, 0, 0)));
    CHECK(is_nan(apply(OpCode::Sqrt, -1, 0, 0)));
    CHECK(is_nan(apply(OpCode::Log, 0, 0, 0)));
    CHECK(is_nan(apply(OpCode::Log, -2, 0, 0)));
    CHECK(is_nan(apply(OpCode::Exp, 800, 0, 0)));
    CHECK(is_nan(apply(OpCode::Add, largest, largest, 0)));
    CHECK(is_nan(apply(OpCode::Multiply, largest, 2, 0)));
    CHECK(is_nan(apply(OpCode::Power, 0, -1, 0)));
    CHECK(is_nan(apply(OpCode::Power, -2, 0.5, 0)));
    CHECK(is_nan(apply(OpCode::Tan, 90, 0, 0)));
}

TEST_CASE("conditions let a decided side win and poison nothing that is not asked for") {
    CHECK(apply(OpCode::And, 0, poison, 0) == 0);
    CHECK(is_nan(apply(OpCode::And, poison, 0, 0)));
    CHECK(is_nan(apply(OpCode::And, 1, poison, 0)));
    CHECK(apply(OpCode::Or, 1, poison, 0) == 1);
    CHECK(is_nan(apply(OpCode::Or, poison, 1, 0)));
    CHECK(is_nan(apply(OpCode::Or, 0, poison, 0)));
    CHECK(apply(OpCode::Select, 1, 5, poison) == 5);
    CHECK(apply(OpCode::Select, 0, poison, 6) == 6);
    CHECK(is_nan(apply(OpCode::Select, poison, 5, 6)));
    CHECK(apply(OpCode::Guard, 1, 5, 0) == 5);
    CHECK(is_nan(apply(OpCode::Guard, 0, 5, 0)));
    CHECK(apply(OpCode::Not, 0, 0, 0) == 1);
    CHECK(apply(OpCode::Not, 1, 0, 0) == 0);
}

TEST_CASE("ceil, floor and round forgive the dust of arithmetic") {
    struct Row {
        OpCode code;
        double x, result;
    };
    for (const Row& row :
         {Row{OpCode::Ceil, 7.2, 8}, Row{OpCode::Ceil, 7, 7},
          Row{OpCode::Ceil, 0.1 * 3 * 10, 3}, // 3.0000000000000004
          Row{OpCode::Ceil, -7.2, -7}, Row{OpCode::Ceil, -0.3, 0}, Row{OpCode::Ceil, 1e-12, 0},
          Row{OpCode::Ceil, 7.00001, 8}, Row{OpCode::Ceil, 4e9 + 0.25, 4e9 + 1},
          Row{OpCode::Floor, 7.8, 7},
          Row{OpCode::Floor, (4.90 - 4.20) / 0.10, 7}, // 6.999999999999999
          Row{OpCode::Floor, -7.2, -8}, Row{OpCode::Floor, -1e-12, 0}, Row{OpCode::Round, 2.5, 3},
          Row{OpCode::Round, -2.5, -3}, Row{OpCode::Round, 2.4, 2},
          Row{OpCode::Round, 1.005 * 100, 101}, // 100.49999999999999
          Row{OpCode::Round, 0.49999, 0}, Row{OpCode::Round, 4503599627370497, 4503599627370497},
          Row{OpCode::Round, -1e300, -1e300}})
        CHECK(apply(row.code, row.x, 0, 0) == row.result);
    CHECK(!std::signbit(apply(OpCode::Round, -0.2, 0, 0)));
    CHECK(!std::signbit(apply(OpCode::Ceil, -0.2, 0, 0)));
}

TEST_CASE("functions of angles are exact at quarter turns and right elsewhere") {
    CHECK(apply(OpCode::Sin, 0, 0, 0) == 0);
    CHECK(apply(OpCode::Sin, 90, 0, 0) == 1);
    CHECK(apply(OpCode::Sin, 180, 0, 0) == 0);
    CHECK(apply(OpCode::Sin, -270, 0, 0) == 1);
    CHECK(apply(OpCode::Cos, 90, 0, 0) == 0);
    CHECK(apply(OpCode::Cos, 180, 0, 0) == -1);
    CHECK(apply(OpCode::Cos, 720, 0, 0) == 1);
    CHECK(apply(OpCode::Atan, 1, 0, 0) == 45);
    CHECK(apply(OpCode::Sin, 30, 0, 0) == doctest::Approx(0.5).epsilon(1e-15));
    CHECK(apply(OpCode::Tan, 45, 0, 0) == doctest::Approx(1).epsilon(1e-15));
}

TEST_CASE("functions agree with the C library to two units in the last place") {
    std::mt19937_64 random(7);
    std::uniform_real_distribution<double> even(0, 1);
    for (int i = 0; i < 20000; ++i) {
        const double x = std::exp(even(random) * 40 - 20);
        const double y = even(random) * 8 - 4;
        REQUIRE(units_apart(apply(OpCode::Exp, y * 20, 0, 0), std::exp(y * 20)) <= 2);
        REQUIRE(units_apart(apply(OpCode::Log, x, 0, 0), std::log(x)) <= 2);
        REQUIRE(units_apart(apply(OpCode::Power, x, y, 0), std::pow(x, y)) <= 2);
        REQUIRE(std::fabs(apply(OpCode::Sin, y * 100, 0, 0) -
                          static_cast<double>(sinl(y * 100 / 180.0L * 3.14159265358979323846L))) <
                1.5e-15);
        REQUIRE(std::fabs(apply(OpCode::Cos, y * 100, 0, 0) -
                          static_cast<double>(cosl(y * 100 / 180.0L * 3.14159265358979323846L))) <
                1.5e-15);
        REQUIRE(units_apart(apply(OpCode::Atan, x, 0, 0),
                            std::atan(x) * (180 / 3.14159265358979323846)) <= 3);
    }
    // So many turns and a rest: 360e12 + 90 is a double, and its half turns have a fraction of
    // 2^-11 still.
    CHECK(apply(OpCode::Sin, 360e12 + 90, 0, 0) == doctest::Approx(1).epsilon(1e-6));
    CHECK(apply(OpCode::Cos, 360e12 + 180, 0, 0) == doctest::Approx(-1).epsilon(1e-6));
    CHECK(apply(OpCode::Tan, 360e12 + 45, 0, 0) == doctest::Approx(1).epsilon(1e-2));
    CHECK(apply(OpCode::Cos, 1e300, 0, 0) == 1); // whole turns, as far as a double can tell
}

TEST_CASE("a table is linear between its rows, exact on them, and minds its ends") {
    // Burn of a 420 hp class engine by load, invented; the middle by hand: 21 + (38 - 21) * 20 / 40
    // = 29.5.
    PlanTable burn{{20, 60, 100}, {8, 21, 38}, false, true, false};
    CHECK(look_up(burn, 20) == 8);
    CHECK(look_up(burn, 60) == 21);
    CHECK(look_up(burn, 100) == 38);
    CHECK(look_up(burn, 80) == 29.5);
    CHECK(look_up(burn, 5) == 8);
    CHECK(is_nan(look_up(burn, 100.5)));
    CHECK(is_nan(look_up(burn, poison)));
    burn.hold_above = true;
    burn.hold_below = false;
    CHECK(look_up(burn, 1000) == 38);
    CHECK(is_nan(look_up(burn, 19.9)));
    burn.staircase = true;
    CHECK(look_up(burn, 59.9) == 8);
    CHECK(look_up(burn, 60) == 21);
    CHECK(look_up(burn, 100) == 38);
}

} // namespace operations_test
