#include "engine/plan/plan_builder.h"

#include <cmath>

#include <doctest/doctest.h>

#include "engine/readers/value.h"

namespace plan_builder_test {

using namespace acre::engine;

namespace {

double last_value(PlanBuilder& builder, Slot slot) {
    return evaluate(builder.plan()).slot[slot];
}

} // namespace

TEST_CASE("an operation that is there already is not added again") {
    PlanBuilder builder(100);
    const Slot a = builder.input(3, 0, false);
    const Slot b = builder.input(4, 1, false);
    const Slot sum = builder.emit(OpCode::Add, a, b);
    CHECK(builder.emit(OpCode::Add, a, b) == sum);
    CHECK(builder.emit(OpCode::Add, b, a) == sum); // the sum of two doubles does not mind the order
    CHECK(builder.emit(OpCode::Subtract, a, b) != builder.emit(OpCode::Subtract, b, a));
    CHECK(builder.constant(7) == builder.constant(7));
    CHECK(builder.plan().size() == 6);
}

TEST_CASE("constants fold, and poison stays where a fault can find it") {
    PlanBuilder builder(100);
    const Slot seven = builder.emit(OpCode::Add, builder.constant(3), builder.constant(4));
    CHECK(builder.is_constant(seven));
    CHECK(builder.value(seven) == 7);
    const Slot fault = builder.emit(OpCode::Divide, builder.constant(1), builder.constant(0));
    CHECK_FALSE(builder.is_constant(fault));
    CHECK(builder.plan().operations[fault].code == OpCode::Divide);
    CHECK(std::isnan(last_value(builder, fault)));
}

TEST_CASE("what changes nothing is left out") {
    PlanBuilder builder(100);
    const Slot x = builder.input(3, 0, false);
    const Slot one = builder.constant(1);
    CHECK(builder.emit(OpCode::Multiply, x, one) == x);
    CHECK(builder.emit(OpCode::Multiply, one, x) == x);
    CHECK(builder.emit(OpCode::Divide, x, one) == x);
    CHECK(builder.power(x, one) == x);
    CHECK(builder.emit(OpCode::Select, one, x, one) == x);
    CHECK(builder.emit(OpCode::Select, builder.constant(0), one, x) == x);
}

TEST_CASE("whole powers up to sixteen are products; the rest are not") {
    for (int n = 1; n <= 16; ++n) {
        PlanBuilder builder(100);
        const Slot x = builder.input(1.1, 0, false);
        const Slot power = builder.power(x, builder.constant(n));
        const Slot inverse = builder.power(x, builder.constant(-n));
        for (const Operation& op : builder.plan().operations)
            CHECK(op.code != OpCode::Power);
        double product = 1;
        for (int i = 0; i < n; ++i)
            product *= 1.1;
        CHECK(last_value(builder, power) == doctest::Approx(product).epsilon(1e-14));
        CHECK(last_value(builder, inverse) == doctest::Approx(1 / product).epsilon(1e-14));
    }
    PlanBuilder builder(100);
    const Slot x = builder.input(2, 0, false);
    for (const double exponent : {17.0, 0.5, 0.0, -20.0})
        CHECK(builder.plan().operations[builder.power(x, builder.constant(exponent))].code ==
              OpCode::Power);
}

TEST_CASE("a value is rounded to steps without dust of its own") {
    struct Row {
        OpCode code;
        double value, step, result;
    };
    for (const Row& row :
         {Row{OpCode::Round, 25.025, 0.01, 25.03},
          Row{OpCode::Round, 0.285, 0.01, 0.29}, // 0.285 / 0.01 is 28.499999999999996
          Row{OpCode::Ceil, 1.1, 0.1, 1.1},      // 1.1 / 0.1 is 11.000000000000002
          Row{OpCode::Ceil, 411.2, 5, 415},
          Row{OpCode::Floor, 0.7, 0.1, 0.7}, // 0.7 / 0.1 is 6.999999999999999
          Row{OpCode::Ceil, 13.01, 0.25, 13.25}, Row{OpCode::Ceil, 0.05, 0.3, 0.3}}) {
        PlanBuilder builder(100);
        CHECK(last_value(builder, builder.to_steps(row.code, builder.input(row.value, 0, false),
                                                   builder.constant(row.step))) == row.result);
        CHECK(last_value(builder, builder.to_steps(row.code, builder.constant(row.value),
                                                   builder.constant(row.step))) == row.result);
    }
}

TEST_CASE("a full plan says so and grows no further") {
    PlanBuilder builder(5);
    Slot x = builder.input(1, 0, false);
    for (int i = 2; i < 10; ++i)
        x = builder.emit(OpCode::Add, x, builder.constant(i));
    CHECK(builder.full());
    CHECK(builder.plan().size() == 5);
}

TEST_CASE("what an answer rests on stops at branches not taken") {
    PlanBuilder builder(100);
    const Slot yes = builder.input(1, 0, false);
    const Slot x = builder.input(5, 1, false);
    const Slot zero = builder.input(0, 2, false);
    const Slot fault = builder.emit(OpCode::Divide, x, zero);
    const Slot chosen = builder.emit(OpCode::Select, yes, x, fault);
    const Slot either = builder.emit(OpCode::Or, yes, fault);
    const Slot both = builder.emit(OpCode::And, zero, fault);
    const Slot kept = builder.emit(OpCode::Guard, zero, fault);
    const Values values = evaluate(builder.plan());
    CHECK(values.slot[chosen] == 5);
    CHECK(values.slot[either] == 1);
    CHECK(values.slot[both] == 0);
    const std::vector<Slot> roots{chosen, either, both, kept};
    const std::vector<char> asked = asked_for(builder.plan(), values, roots);
    CHECK(asked[yes] == 1);
    CHECK(asked[x] == 1);
    CHECK(asked[zero] == 1);
    CHECK(asked[fault] == 0);
}

TEST_CASE("inputs given to the reader take the place of the job's own") {
    PlanBuilder builder(100);
    const Slot a = builder.input(3, 0, false);
    const Slot b = builder.input(4, 1, false);
    const Slot product = builder.emit(OpCode::Multiply, a, b);
    CHECK(last_value(builder, product) == 12);
    const std::vector<double> other{5, 6};
    CHECK(evaluate(builder.plan(), other).slot[product] == 30);
    const std::vector<double> endless{INFINITY, 6};
    CHECK(std::isnan(evaluate(builder.plan(), endless).slot[product]));
}

} // namespace plan_builder_test
