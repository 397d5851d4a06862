// The backward sweep against central differences of the value reader, over random plans.
#include <doctest/doctest.h>

#include <cmath>

#include "engine/readers/adjoint.h"
#include "tests/property/random_plan.h"

namespace adjoint_test {

using namespace acre::engine;
using acre::tests::PlanMaker;
using acre::tests::RandomPlan;

namespace {

double difference(const Plan& plan, std::vector<double> inputs, std::size_t k, double h,
                  Slot target) {
    const double x = inputs[k];
    inputs[k] = x + h;
    const double high = evaluate(plan, inputs).slot[target];
    inputs[k] = x - h;
    return (high - evaluate(plan, inputs).slot[target]) / (2 * h);
}

// Everything the target rests on is of a size at which differences of doubles still say something.
bool tame(const Plan& plan, const Values& values, Slot target) {
    const std::vector<char> asked = asked_for(plan, values, std::vector<Slot>{target});
    for (Slot slot = 0; slot <= target; ++slot) {
        if (asked[slot] == 0)
            continue;
        const Operation& op = plan.operations[slot];
        const double size = std::fabs(values.slot[slot]);
        // A root at zero has no slope, and a power of a number below zero none by its exponent.
        if ((op.code == OpCode::Sqrt && size == 0) ||
            (op.code == OpCode::Power && values.slot[op.a] <= 0))
            return false;
        if (size != 0 && !(size > 1e-5 && size < 1e5))
            return false;
    }
    return true;
}

} // namespace

TEST_CASE("slopes are those of central differences, wherever differences have settled") {
    std::size_t compared = 0, unsettled = 0, zero = 0;
    for (std::uint64_t seed = 1; seed <= 400; ++seed) {
        PlanMaker random(seed);
        const RandomPlan made = random.make(8, 60, true);
        std::vector<double> inputs;
        for (const Input& input : made.plan.inputs)
            inputs.push_back(input.value);
        const Values values = evaluate(made.plan, inputs);
        for (std::size_t back = 1; back <= 8; ++back) {
            const Slot target = made.numbers[made.numbers.size() - back];
            const double at = values.slot[target];
            if (!tame(made.plan, values, target))
                continue;
            const std::vector<double> slope = slopes(made.plan, values, target);
            for (std::size_t k = 0; k < inputs.size(); ++k) {
                const double coarse = difference(made.plan, inputs, k, 1e-5, target);
                const double fine = difference(made.plan, inputs, k, 2.5e-6, target);
                const double scale = std::fabs(fine) + 1e-3 * std::fabs(at) + 1e-3;
                if (!(std::fabs(coarse - fine) < 1e-6 * scale)) {
                    ++unsettled; // a kink, a step or an edge between the two points
                    continue;
                }
                CAPTURE(seed);
                CAPTURE(target);
                CAPTURE(k);
                CHECK(std::fabs(slope[k] - fine) <= 1e-5 * scale);
                ++compared;
                zero += slope[k] == 0;
            }
        }
    }
    CHECK(compared > 5000);
    CHECK(unsettled < compared / 4);
    CHECK(zero < compared * 9 / 10);
}

} // namespace adjoint_test
