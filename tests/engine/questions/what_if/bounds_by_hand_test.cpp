// Bounds of formulas by the arithmetic of intervals, worked out by hand.
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/questions/what_if/plan_bounds.h"
#include "tests/support/priced.h"

namespace bounds_by_hand_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

constexpr double endless = anything.high;

// a 2 to 4, b 0.5 to 2, c 4 to 9, k -6 to -2, m -2 to 1, n -3 to 5, z 0 to 2, s 80 to 120 % of 20;
// e of 3 to 7 may be 4 to 6 only.
const std::string givens =
    "model \"m\"\n"
    "given a = 3 swing 2 .. 4\ngiven b = 1 swing 0.5 .. 2\ngiven c = 5 swing 4 .. 9\n"
    "given k = -3 swing -6 .. -2\ngiven m = 0 swing -2 .. 1\ngiven n = 1 swing -3 .. 5\n"
    "given z = 1 swing 0 .. 2\ngiven e = 5 within 4 .. 6 swing 3 .. 7\n"
    "given s : 1 = a + 17 swing 80 % .. 120 % of it\n"
    "table t (x : 1) : 1\n  -3  7\n  0  -2\n  4  5\n"
    "table held (x : 1) : 1 below hold above hold\n  0  1\n  1  2\n"
    "define limited (x : 1) : 1 = x * 2\n  limit x 0 .. 3  \"why\"\n";

bool near(double is, double expected) {
    return is == expected || std::fabs(is - expected) <= 1e-12 * std::fabs(expected);
}

class Formula {
  public:
    explicit Formula(const std::string& text)
        : job_(priced_ok(givens + "y : 1 = " + text + " may be negative\n")),
          axes_(all_axes(job_)),
          bounds_(job_.plan(), axes_, swings()) {}

    Bounds bounds() const { return bounds_.of(job_.slot("y")); }
    // Of the condition of a `when` that is all of the formula: what it always comes to, if that is
    // known.
    std::optional<bool> settled() const {
        const Operation& op = job_.plan().operations[job_.slot("y")];
        REQUIRE(op.code == OpCode::Select);
        const double value = bounds_.settled()[op.a];
        return std::isnan(value) ? std::nullopt : std::optional(value == 1);
    }

  private:
    Priced job_;
    std::vector<Axis> axes_;
    PlanBounds bounds_;

    std::vector<std::optional<Range>> swings() const {
        std::vector<std::optional<Range>> all;
        for (const Axis& axis : axes_)
            all.push_back(axis.swing);
        return all;
    }
};

} // namespace

TEST_CASE("a formula lies between the bounds that its operands give") {
    struct Row {
        std::string formula;
        double low, high;
    };
    for (const Row& row : {
             Row{"a + n", -1, 9},
             {"a - n", -3, 7},
             {"-n", -5, 3},
             {"a * b", 1, 8},
             {"a * n", -12, 20},
             {"m * n", -10, 6}, // -2 × 5, -2 × -3
             {"k * n", -30, 18},
             {"a / c", 2.0 / 9, 1},
             {"a / b", 1, 8},
             {"z / a", 0, 1},
             {"a / z", 1, endless},
             {"a / k", -2, -1.0 / 3}, // 4 / -2, 2 / -6
             {"n / a", -1.5, 2.5},
             {"n / k", -2.5, 1.5}, // 5 / -2, -3 / -2
             {"n / z", -endless, endless},
             {"a / n", -endless, endless},
             {"abs(n)", 0, 5},
             {"abs(k)", 2, 6},
             {"abs(a)", 2, 4},
             {"sqrt(c)", 2, 3},
             {"min(a, n)", -3, 4},
             {"max(a, n)", 2, 5},
             {"min(a, k)", -6, -2},
             {"max(a, k)", 2, 4},
             {"a ^ b", 0, endless},
             {"exp(n)", 0, endless},
             {"log(a)", -endless, endless},
             {"sin(n * 1 deg)", -endless, endless},
             {"e", 4, 6},             // what is allowed is less than the swing
             {"ceil(a * 1.1)", 2, 5}, // 2.2 to 4.4, to whole numbers either way
             {"floor(a * 1.1)", 2, 5},
             {"round(k * 1.1)", -7, -2}, // -6.6 to -2.2
             {"when a > 1 then n otherwise 100", -3, 5},
             {"when a > 4 then n otherwise 100", 100, 100},
             {"when a > 3 then n otherwise 100", -3, 100},
             {"when a > 3 then 100 otherwise k", -6, 100},
             {"limited(z)", 0, 4},
         }) {
        CAPTURE(row.formula);
        const Bounds is = Formula(row.formula).bounds();
        CHECK(near(is.low, row.low));
        CHECK(near(is.high, row.high));
    }
    // A table lies between its least and greatest row, and a rounding past them at most.
    const Bounds t = Formula("t(n)").bounds();
    CHECK((t.low <= -2 && t.low == doctest::Approx(-2).epsilon(1e-11)));
    CHECK((t.high >= 7 && t.high == doctest::Approx(7).epsilon(1e-11)));
}

TEST_CASE("a truth is settled where all that is compared is on one side, and has an answer") {
    struct Row {
        std::string condition;
        std::optional<bool> always;
    };
    const std::optional<bool> open;
    for (const Row& row : {
             Row{"a < 4", open}, // a may be 4
             {"a < 4.5", true},
             {"a < 2", false},
             {"a < 2.5", open},
             {"a <= 4", true},
             {"a <= 2", open},
             {"a <= 1.5", false},
             {"a > 2", open},
             {"a > 1.5", true},
             {"a > 4", false},
             {"a >= 2", true},
             {"a >= 4", open},
             {"a >= 4.5", false},
             {"a == 4", open},
             {"a == 4.5", false},
             {"a == 1.5", false},
             {"a != 4", open},
             {"a != 4.5", true},
             {"a != 1.5", true},
             {"z * 0 == 0", true},
             {"z * 0 != 0", false}, // one number each
             {"not (a > 1)", false},
             {"not (a > 5)", true},
             {"not (a > 3)", open},
             {"a > 1 and b > 0", true},
             {"a > 1 and b > 1", open},
             {"a > 3 and b > 2", false},
             {"a > 4 and b > 1", false},
             {"a > 3 and b > 0", open},
             {"a > 4 or b > 2", false},
             {"a > 4 or b > 1", open},
             {"a > 1 or b > 1", true},
             {"a > 3 or b > 0", true},
             {"a > 3 or b > 2", open},
             // Bounded, but not always there: over zero, the root of what is below it, past a table
             // or a limit.
             {"a / b > 0", true},
             {"min(a / z, 9) > 0", open},
             {"a / k < 0", true},
             {"min(max(a / n, 0), 9) >= 0", open},
             {"sqrt(z) >= 0", true},
             {"sqrt(n) >= 0", open},
             {"t(a) < 8", true},
             {"t(n) < 8", open},
             {"t(k) < 8", open},
             {"t(m) < 8", true},
             {"held(n) < 8", true},
             {"limited(z) < 5", true},
             {"limited(a) < 9", open},
             {"limited(m) < 9", open},
             // Of functions it is not known whether there is an answer.
             {"min(exp(n), 9) >= 0", open},
             {"(when a > 1 then b otherwise sqrt(k)) > 0", true},
             {"(when a > 5 then sqrt(k) otherwise b) > 0", true},
             {"(when a > 3 then b otherwise max(sqrt(k), 1)) > 0", open},
         }) {
        CAPTURE(row.condition);
        const Formula formula("when " + row.condition + " then a otherwise n");
        CHECK(formula.settled() == row.always);
    }
}

} // namespace bounds_by_hand_test
