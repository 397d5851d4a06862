// One value, all slopes, and central differences, in the value reader.
#include <cmath>

#include <fmt/format.h>

#include "engine/readers/adjoint.h"
#include "engine/readers/value.h"
#include "tests/bench/readers/model.h"
#include "tests/bench/readers/rip_native.h"
#include "tests/bench/readers/rivals.h"

namespace acre::bench {

namespace {

// What the slopes of all givens are by two values each.
std::vector<double> central_differences(Model& model, std::vector<double>& inputs,
                                        engine::Slot target) {
    const engine::Plan& plan = model.plan();
    std::vector<double> difference(given_count);
    for (std::size_t k = 0; k < given_count; ++k) {
        const std::uint32_t input = model.inputs[k];
        const double x = inputs[input], h = 1e-5 * std::fabs(x);
        inputs[input] = x + h;
        const double high = engine::evaluate(plan, inputs).slot[target];
        inputs[input] = x - h;
        difference[k] = (high - engine::evaluate(plan, inputs).slot[target]) / (2 * h);
        inputs[input] = x;
    }
    return difference;
}

} // namespace

void measure_slopes(Model& model) {
    constexpr int batch = 50, times = 400;
    const engine::Plan& plan = model.plan();
    const engine::Slot target = model.answers[2];
    std::vector<double> inputs;
    for (const engine::Input& input : plan.inputs)
        inputs.push_back(input.value);
    engine::Values values;
    const double value = best_of(times,
                                 [&] {
                                     for (int k = 0; k < batch; ++k)
                                         values = engine::evaluate(plan, inputs);
                                 }) /
                         batch;
    const engine::Adjoint adjoint(plan, target);
    std::vector<double> slope(plan.inputs.size()), bar;
    const double both = best_of(
                            times,
                            [&] {
                                for (int k = 0; k < batch; ++k) {
                                    values = engine::evaluate(plan, inputs);
                                    adjoint.run(values.slot, slope, bar);
                                }
                            }) /
                        batch;
    const double alone = best_of(times, [&] { slope = engine::slopes(plan, values, target); });
    std::vector<double> difference;
    const double central =
        best_of(times / 10, [&] { difference = central_differences(model, inputs, target); });
    double worst = 0;
    for (std::size_t k = 0; k < given_count; ++k)
        worst = std::max(worst, std::fabs(slope[model.inputs[k]] - difference[k]) /
                                    (1e-9 + std::fabs(difference[k])));
    double out[answer_count];
    const double native = best_of(times,
                                  [&] {
                                      for (int k = 0; k < batch; ++k)
                                          rip_one(given_value, out);
                                  }) /
                          batch;
    fmt::print("\nOne job at a time, one core\n{:<58}{:>10}{:>8}\n", "", "ns", "ratio");
    const auto row = [&](const char* name, double seconds) {
        fmt::print("{:<58}{:>10.0f}{:>8.2f}\n", name, seconds * 1e9, seconds / value);
    };
    row("value reader, every line", value);
    row("value and all 25 slopes", both);
    row("slopes when the way is looked for anew", alone);
    row("25 central differences", central);
    row("by hand, plain code, three answers", native);
    fmt::print("value and slopes to one value {:.2f} (2.5 wanted); faster than central differences "
               "by {:.0f} (15 wanted); differences agree to "
               "{:.0e}\n",
               both / value, central / both, worst);
}

} // namespace acre::bench
