#include "engine/questions/what_if/perhaps_negative.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <limits>

#include "engine/plan/opcodes.h"

namespace acre::engine {
namespace {

struct Bounds {
    double low, high;
};

constexpr double boundless = std::numeric_limits<double>::infinity();
constexpr Bounds anything{-boundless, boundless};
constexpr Bounds truth{0, 1};

Bounds sorted(std::initializer_list<double> ends) {
    Bounds out{boundless, -boundless};
    for (const double end : ends) {
        if (std::isnan(end)) // 0 × infinity, infinity - infinity: nothing is known
            return anything;
        out.low = std::min(out.low, end);
        out.high = std::max(out.high, end);
    }
    return out;
}

Bounds product(Bounds a, Bounds b) {
    if (a.low >= 0 && b.low >= 0) // also without an upper bound
        return {a.low * b.low, a.high == 0 || b.high == 0 ? 0 : a.high * b.high};
    return sorted({a.low * b.low, a.low * b.high, a.high * b.low, a.high * b.high});
}

// A divisor of zero has no answer, so it bounds nothing.
Bounds quotient(Bounds a, Bounds b) {
    if (a.low >= 0 && b.low >= 0 && b.high > 0)
        return {b.high == boundless ? 0 : a.low / b.high, b.low > 0 ? a.high / b.low : boundless};
    if (b.low > 0 || b.high < 0)
        return sorted({a.low / b.low, a.low / b.high, a.high / b.low, a.high / b.high});
    return anything;
}

// Bounds of every slot, from constants, inputs and allowed ranges.
class BoundsPass {
  public:
    BoundsPass(const Plan& plan, std::span<const Axis> axes,
               std::span<const std::optional<Range>> promised)
        : plan_(plan),
          bounds_(plan.size()),
          inputs_(plan.inputs.size()) {
        for (std::size_t i = 0; i < plan.inputs.size(); ++i)
            inputs_[i] = {plan.inputs[i].value, plan.inputs[i].value};
        for (std::size_t k = 0; k < axes.size(); ++k)
            inputs_[axes[k].input] =
                of_axis(axes[k], k < promised.size() ? promised[k] : std::optional<Range>());
        for (Slot i = 0; i < plan.size(); ++i)
            bounds_[i] = of(plan.operations[i]);
    }

    bool proves(Slot slot) const { return bounds_[slot].low >= 0; }

  private:
    // A trial outside the allowed range has no answer anyway.
    Bounds of_axis(const Axis& axis, const std::optional<Range>& promised) const {
        if (axis.options > 0)
            return {0, static_cast<double>(axis.options)};
        Bounds bounds = anything;
        if (promised)
            bounds = {promised->low, promised->high};
        const auto tighten = [&](Slot slot, double& end, bool low) {
            if (slot == no_slot || plan_.operations[slot].code != OpCode::Constant)
                return;
            const double bound = plan_.constants[plan_.operations[slot].a];
            end = low ? std::max(end, bound) : std::min(end, bound);
        };
        tighten(plan_.within_low[axis.given], bounds.low, true);
        tighten(plan_.within_high[axis.given], bounds.high, false);
        return bounds;
    }

    Bounds of(const Operation& operation) const {
        switch (kind_of(operation.code)) {
        case OpKind::Source:
            return operation.code == OpCode::Input
                       ? inputs_[operation.a]
                       : Bounds{plan_.constants[operation.a], plan_.constants[operation.a]};
        case OpKind::Comparison:
        case OpKind::Logic:
            return truth;
        case OpKind::Lookup:
            return operation.code == OpCode::Table ? of_table(plan_.tables[operation.a]) : anything;
        default:
            return of_arithmetic(operation);
        }
    }

    static Bounds of_table(const PlanTable& table) {
        return {*std::min_element(table.y.begin(), table.y.end()),
                *std::max_element(table.y.begin(), table.y.end())};
    }

    Bounds of_arithmetic(const Operation& operation) const {
        const Bounds a = bounds_[operation.a];
        const Bounds b = bounds_[operation.b];
        switch (operation.code) {
        case OpCode::Add:
            return {a.low + b.low, a.high + b.high};
        case OpCode::Subtract:
            return {a.low - b.high, a.high - b.low};
        case OpCode::Multiply:
            return product(a, b);
        case OpCode::Divide:
            return quotient(a, b);
        case OpCode::Negate:
            return {-a.high, -a.low};
        case OpCode::Power:
            return {a.low >= 0 ? 0 : -boundless, boundless};
        case OpCode::Sqrt:
        case OpCode::Exp:
        case OpCode::Abs:
            return {0, boundless};
        case OpCode::Min:
            return {std::min(a.low, b.low), std::min(a.high, b.high)};
        case OpCode::Max:
            return {std::max(a.low, b.low), std::max(a.high, b.high)};
        case OpCode::Ceil:
        case OpCode::Floor:
        case OpCode::Round: // to whole numbers, or to multiples of b made of other operations
            return {std::floor(a.low), std::ceil(a.high)};
        case OpCode::Select: {
            const Bounds c = bounds_[operation.c];
            return {std::min(b.low, c.low), std::max(b.high, c.high)};
        }
        case OpCode::Guard:
            return b;
        default:
            return anything;
        }
    }

    const Plan& plan_;
    std::vector<Bounds> bounds_;
    std::vector<Bounds> inputs_;
};

} // namespace

std::vector<Slot> perhaps_negative(const Plan& plan, std::span<const char> varies,
                                   std::span<const Axis> axes,
                                   std::span<const std::optional<Range>> promised) {
    const BoundsPass bounds(plan, axes, promised);
    std::vector<Slot> slots;
    for (std::size_t line = 0; line < plan.line_slot.size(); ++line)
        if (const Slot slot = plan.line_slot[line]; plan.not_negative[line] != 0 &&
                                                    slot != no_slot && varies[slot] != 0 &&
                                                    !bounds.proves(slot))
            slots.push_back(slot);
    std::sort(slots.begin(), slots.end());
    slots.erase(std::unique(slots.begin(), slots.end()), slots.end());
    return slots;
}

} // namespace acre::engine
