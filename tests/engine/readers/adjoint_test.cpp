// Slopes of single operations against their closed forms (any calculus text), and of kinks and
// steps against the branch taken.
#include <doctest/doctest.h>

#include <cmath>

#include "engine/native/native.h"
#include "engine/readers/adjoint.h"

namespace adjoint_test {

using namespace acre::engine;

namespace {

// One operation on two inputs and a third: inputs 0, 1, 2 are slots 0, 1, 2; the operation is
// slot 3.
Plan plan_of(Operation op, double a, double b = 0, double c = 0) {
    Plan plan;
    plan.inputs = {{0, a, 0, false}, {1, b, 1, false}, {2, c, 2, false}};
    plan.operations = {{OpCode::Input, 0}, {OpCode::Input, 1}, {OpCode::Input, 2}, op};
    return plan;
}
std::vector<double> slopes_of(const Plan& plan) {
    return slopes(plan, evaluate(plan), static_cast<Slot>(plan.size() - 1));
}

constexpr double radian = 3.14159265358979323846 / 180; // of a degree

} // namespace

TEST_CASE("each operation has the slope of its closed form") {
    struct Row {
        OpCode code;
        double a, b, by_a, by_b;
    };
    const Row rows[] = {
        {OpCode::Add, 3, 4, 1, 1},
        {OpCode::Subtract, 3, 4, 1, -1},
        {OpCode::Multiply, 3, 4, 4, 3},
        {OpCode::Divide, 3, 4, 0.25, -3.0 / 16},
        {OpCode::Negate, 3, 0, -1, 0},
        {OpCode::Power, 3, 4, 4 * 27.0, 81 * std::log(3.0)},
        {OpCode::Power, -3, 3, 27, std::nan("")},
        {OpCode::Power, 0, 1, 1, 0},
        {OpCode::Power, 0, 2, 0, 0},
        {OpCode::Sqrt, 9, 0, 1.0 / 6, 0},
        {OpCode::Exp, 2, 0, std::exp(2.0), 0},
        {OpCode::Log, 4, 0, 0.25, 0},
        {OpCode::Sin, 60, 0, 0.5 * radian, 0},
        {OpCode::Cos, 30, 0, -0.5 * radian, 0},
        {OpCode::Tan, 45, 0, 2 * radian, 0},
        {OpCode::Atan, 1, 0, 0.5 / radian, 0},
        {OpCode::Abs, -2, 0, -1, 0},
        {OpCode::Abs, 2, 0, 1, 0},
        {OpCode::Min, 3, 4, 1, 0},
        {OpCode::Min, 4, 3, 0, 1},
        {OpCode::Min, 4, 4, 1, 0},
        {OpCode::Max, 3, 4, 0, 1},
        {OpCode::Max, 4, 4, 1, 0},
        {OpCode::Ceil, 2.5, 0, 0, 0},
        {OpCode::Floor, 2.5, 0, 0, 0},
        {OpCode::Round, 2.4, 0, 0, 0},
        {OpCode::Less, 3, 4, 0, 0},
    };
    for (const Row& row : rows) {
        CAPTURE(static_cast<int>(row.code));
        CAPTURE(row.a);
        const std::vector<double> got = slopes_of(plan_of({row.code, 0, 1}, row.a, row.b));
        CHECK(got[0] == doctest::Approx(row.by_a).epsilon(1e-14));
        if (std::isnan(row.by_b))
            CHECK(std::isnan(got[1]));
        else
            CHECK(got[1] == doctest::Approx(row.by_b).epsilon(1e-14));
        CHECK(got[2] == 0);
    }
}

TEST_CASE("a choice passes its slope to the branch taken, and none to the condition") {
    for (const double condition : {1.0, 0.0}) {
        const auto got = slopes_of(plan_of({OpCode::Select, 0, 1, 2}, condition, 5, 7));
        CHECK(got == std::vector<double>{0, condition, 1 - condition});
    }
    CHECK(slopes_of(plan_of({OpCode::Guard, 0, 1}, 1, 5)) == std::vector<double>{0, 1, 0});
}

TEST_CASE("poison on the branch not taken leaves the slope alone") {
    // when x > 0 then x * 3 otherwise 1 / (x - x)
    Plan plan;
    plan.inputs = {{0, 2, 0, false}};
    plan.constants = {0, 3, 1};
    plan.operations = {
        {OpCode::Input, 0},       {OpCode::Constant, 0},   {OpCode::Constant, 1},
        {OpCode::Constant, 2},    {OpCode::Greater, 0, 1}, {OpCode::Multiply, 0, 2},
        {OpCode::Subtract, 0, 0}, {OpCode::Divide, 3, 6},  {OpCode::Select, 4, 5, 7}};
    CHECK(slopes_of(plan) == std::vector<double>{3});
    plan.inputs[0].value = -2;
    CHECK(std::isnan(slopes_of(plan)[0]));
}

TEST_CASE("a table has the slope of the segment it is read in") {
    Plan plan = plan_of({OpCode::Table, 0, 0}, 0);
    plan.tables.push_back({{0, 10, 30}, {5, 25, 15}, false, true, true});
    const double at[][2] = {{-1, 0}, {0, 2}, {4, 2}, {10, -0.5}, {29, -0.5}, {30, 0}, {31, 0}};
    for (const auto& row : at) {
        plan.inputs[0].value = row[0];
        CAPTURE(row[0]);
        CHECK(slopes_of(plan)[0] == row[1]);
    }
    plan.tables[0].staircase = true;
    plan.inputs[0].value = 4;
    CHECK(slopes_of(plan)[0] == 0);
}

TEST_CASE("a native function passes on the slopes it states") {
    for (std::uint32_t which = 0; which < native_functions().size(); ++which) {
        const NativeFunction& function = native_functions()[which];
        Plan plan;
        NativeCall call{which, {}};
        const std::uint32_t arity = function.arity(function.most_rows == 0 ? 0 : 1 + which);
        std::vector<double> args, stated(arity);
        for (std::uint32_t k = 0; k < arity; ++k) {
            args.push_back(1 + 0.25 * k);
            plan.inputs.push_back({k, args.back(), k, false});
            plan.operations.push_back({OpCode::Input, k});
            call.args.push_back(k);
        }
        plan.calls.push_back(call);
        plan.operations.push_back({OpCode::Native, 0});
        const double value = function.slopes(args, stated);
        if (std::isfinite(value))
            CHECK(slopes_of(plan) == stated);
    }
}

TEST_CASE("a slot that rests on no input has no slopes, a choice has none either") {
    Plan plan = plan_of({OpCode::Equal, 0, 1}, 1, 1);
    plan.constants = {4};
    plan.operations.push_back({OpCode::Constant, 0});
    CHECK(slopes_of(plan) == std::vector<double>{0, 0, 0});
    CHECK(Adjoint(plan, 4).size() == 0);
    Plan choice = plan_of({OpCode::Multiply, 0, 1}, 2, 3);
    choice.inputs[0].is_choice = true;
    CHECK(slopes_of(choice) == std::vector<double>{0, 2, 0});
}

} // namespace adjoint_test
