#include "tests/fuzz/readers.h"

#include <array>
#include <bit>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/plan/opcodes.h"
#include "engine/readers/adjoint.h"
#include "engine/readers/lanes.h"
#include "engine/readers/lanes/kernels.h"
#include "engine/readers/value.h"
#include "tests/fuzz/target.h"

namespace acre::fuzz {
namespace {

using engine::Plan;
using engine::Slot;
using engine::Values;

double thrown(tests::Dice& dice, const engine::Input& input) {
    if (input.is_choice)
        return static_cast<double>(dice.below(2));
    switch (dice.below(8)) {
    case 0:
        return input.value;
    case 1:
        return 0;
    case 2:
        return -input.value;
    case 3:
        return std::numeric_limits<double>::quiet_NaN();
    case 4:
        return dice.real(-1, 1) * 1e200;
    case 5:
        return static_cast<double>(dice.below(256)) - 128;
    default:
        return dice.real(-20, 60);
    }
}

std::vector<double> inputs_of(const Plan& plan) {
    std::vector<double> inputs;
    for (const engine::Input& input : plan.inputs)
        inputs.push_back(input.value);
    return inputs;
}

bool same_bits(double a, double b) {
    return std::bit_cast<std::uint64_t>(a) == std::bit_cast<std::uint64_t>(b) ||
           (std::isnan(a) && std::isnan(b));
}

// Everything the target rests on is of a size at which differences of doubles still say something.
bool tame(const Plan& plan, const Values& values, Slot target) {
    const std::vector<char> asked = engine::asked_for(plan, values, std::vector<Slot>{target});
    for (Slot slot = 0; slot <= target; ++slot) {
        if (asked[slot] == 0)
            continue;
        const engine::Operation& op = plan.operations[slot];
        const double size = std::fabs(values.slot[slot]);
        if ((op.code == engine::OpCode::Sqrt && size == 0) ||
            (op.code == engine::OpCode::Power && !(values.slot[op.a] > 0)))
            return false;
        if (op.code == engine::OpCode::Native || (size != 0 && !(size > 1e-4 && size < 1e4)))
            return false;
    }
    return true;
}

// The plan with one input moved a little, both ways: what every target is asked for.
class Moved {
  public:
    Moved(const Plan& plan, std::vector<double> inputs, std::size_t k) {
        const double x = inputs[k];
        for (std::size_t step = 0; step < steps.size(); ++step)
            for (const std::size_t way : {0U, 1U}) {
                inputs[k] = way == 0 ? x - steps[step] : x + steps[step];
                values_[step][way] = engine::evaluate(plan, inputs);
            }
    }

    enum Step : std::size_t { Wide, Coarse, Fine };
    double low(Step step, Slot target) const { return values_[step][0].slot[target]; }
    double high(Step step, Slot target) const { return values_[step][1].slot[target]; }
    double difference(Step step, Slot target) const {
        return (high(step, target) - low(step, target)) / (2 * steps[step]);
    }

    // Whether every condition and whole number of the plan is the same on both sides: the slope is
    // that of the branch taken, and exactly on an edge the branch is taken at one point only.
    bool decides_alike(const Plan& plan, const Values& values) const {
        for (const Values& moved : values_[Wide])
            for (Slot slot = 0; slot < plan.size(); ++slot)
                if (engine::is_flat(plan.operations[slot].code) &&
                    !same_bits(moved.slot[slot], values.slot[slot]))
                    return false;
        return true;
    }

    // Exactly at a kink central differences settle too, on the mean of both sides; the sides by
    // themselves tell.
    bool at_kink(Slot target, double here, double middle) const {
        const double right = (high(Coarse, target) - here) / steps[Coarse];
        const double left = (here - low(Coarse, target)) / steps[Coarse];
        // Narrower than half of what a slope may be off: the mean of both sides is that far from
        // each.
        return !(std::fabs(right - left) <
                 1e-4 * (std::fabs(middle) + 1e-3 * std::fabs(here) + 1e-3));
    }

  private:
    static constexpr std::array<double, 3> steps{4e-5, 1e-5, 2.5e-6};
    std::array<std::array<Values, 2>, 3> values_;
};

void hold_slope(const Moved& moved, const Plan& plan, const Values& values, std::size_t k,
                Slot target, double slope) {
    const double wide = moved.difference(Moved::Wide, target);
    const double coarse = moved.difference(Moved::Coarse, target);
    const double fine = moved.difference(Moved::Fine, target);
    const double here = values.slot[target];
    const double scale = std::fabs(fine) + 1e-3 * std::fabs(here) + 1e-3;
    // A kink, a step or an edge between the points: the three differences are not of one slope.
    if (!(std::fabs(coarse - fine) < 1e-6 * scale && std::fabs(wide - coarse) < 1e-5 * scale) ||
        moved.at_kink(target, here, fine) || !moved.decides_alike(plan, values))
        return;
    HOLDS_FOR(std::fabs(slope - fine) <= 1e-4 * scale,
              "input " + std::to_string(k) + ", slot " + std::to_string(target) + ": slope " +
                  std::to_string(slope) + ", difference " + std::to_string(fine));
}

} // namespace

void hold_lanes(const Plan& plan, tests::Dice& dice) {
    std::vector<std::uint32_t> varied;
    for (std::uint32_t k = 0; k < plan.inputs.size(); ++k)
        if (dice.below(4) != 3)
            varied.push_back(k);
    std::vector<Slot> wanted;
    for (Slot slot = plan.size() > 64 ? static_cast<Slot>(plan.size() - 64) : 0; slot < plan.size();
         ++slot)
        wanted.push_back(slot);
    if (plan.size() > 64)
        wanted.push_back(static_cast<Slot>(dice.below(plan.size())));
    const std::size_t lanes = 1 + dice.below(19);
    std::vector<std::vector<double>> in(varied.size(), std::vector<double>(lanes));
    std::vector<double*> in_at;
    for (std::size_t k = 0; k < varied.size(); ++k) {
        for (double& x : in[k])
            x = thrown(dice, plan.inputs[varied[k]]);
        in_at.push_back(in[k].data());
    }
    std::vector<Values> expected;
    std::vector<double> inputs = inputs_of(plan);
    for (std::size_t lane = 0; lane < lanes; ++lane) {
        for (std::size_t k = 0; k < varied.size(); ++k)
            inputs[varied[k]] = in[k][lane];
        expected.push_back(engine::evaluate(plan, inputs));
    }
#ifdef ACREWRIGHT_REPLAY
    const auto sets = engine::lanes::kernel_sets();
#else // one width an input
    const auto every = engine::lanes::kernel_sets();
    const std::array sets{every[dice.below(every.size())]};
#endif
    for (const engine::lanes::KernelSet* set : sets) {
        const engine::LaneReader reader(plan, varied, wanted, {}, set->bits);
        const auto scratch = reader.scratch();
        std::vector<std::vector<double>> out(wanted.size(), std::vector<double>(lanes));
        std::vector<double*> out_at;
        for (std::vector<double>& column : out)
            out_at.push_back(column.data());
        reader.run(lanes, in_at.data(), out_at.data(), *scratch);
        for (std::size_t k = 0; k < wanted.size(); ++k)
            for (std::size_t lane = 0; lane < lanes; ++lane)
                HOLDS_FOR(same_bits(expected[lane].slot[wanted[k]], out[k][lane]),
                          std::string(set->name) + ", slot " + std::to_string(wanted[k]) +
                              " of operation " +
                              std::to_string(static_cast<int>(plan.operations[wanted[k]].code)) +
                              ": " + std::to_string(out[k][lane]) + ", the value reader says " +
                              std::to_string(expected[lane].slot[wanted[k]]));
    }
}

void hold_slopes(const Plan& plan, const std::vector<Slot>& targets,
                 std::optional<std::size_t> one) {
    const std::vector<double> inputs = inputs_of(plan);
    const Values values = engine::evaluate(plan, inputs);
    std::vector<std::pair<Slot, std::vector<double>>> settled;
    for (const Slot target : targets) {
        std::vector<double> slope = engine::slopes(plan, values, target);
        HOLDS(slope.size() == inputs.size());
        if (!std::isnan(values.slot[target]) && tame(plan, values, target))
            settled.emplace_back(target, std::move(slope));
    }
    if (settled.empty())
        return;
    for (std::size_t k = 0; k < inputs.size(); ++k) {
        if (plan.inputs[k].is_choice || (one && k != *one % inputs.size()))
            continue;
        const Moved moved(plan, inputs, k);
        for (const auto& [target, slope] : settled)
            hold_slope(moved, plan, values, k, target, slope[k]);
    }
}

} // namespace acre::fuzz
