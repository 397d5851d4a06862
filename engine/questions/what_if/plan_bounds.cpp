#include "engine/questions/what_if/plan_bounds.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "engine/plan/opcodes.h"
#include "engine/plan/operands.h"

namespace acre::engine {
namespace {

constexpr double boundless = anything.high;
constexpr Bounds truth{0, 1}, yes{1, 1}, no{0, 0};

bool is_true(Bounds a) {
    return a.low > 0;
}
bool is_false(Bounds a) {
    return a.low == 0 && a.high == 0;
}

// An end that is not a number bounds nothing.
Bounds known(Bounds a) {
    return {std::isnan(a.low) ? -boundless : a.low, std::isnan(a.high) ? boundless : a.high};
}

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

Bounds less(Bounds a, Bounds b) {
    return a.high < b.low ? yes : a.low >= b.high ? no : truth;
}
Bounds not_of(Bounds a) {
    return is_true(a) ? no : is_false(a) ? yes : truth;
}
Bounds equal(Bounds a, Bounds b) {
    if (a.high < b.low || b.high < a.low)
        return no;
    return a.low == a.high && b.low == b.high ? yes : truth;
}

Bounds of_comparison(OpCode code, Bounds a, Bounds b) {
    switch (code) {
    case OpCode::Less:
        return less(a, b);
    case OpCode::LessEqual:
        return not_of(less(b, a));
    case OpCode::Greater:
        return less(b, a);
    case OpCode::GreaterEqual:
        return not_of(less(a, b));
    case OpCode::Equal:
        return equal(a, b);
    case OpCode::NotEqual:
        return not_of(equal(a, b));
    case OpCode::And:
        return is_false(a) || is_false(b) ? no : is_true(a) && is_true(b) ? yes : truth;
    case OpCode::Or:
        return is_true(a) || is_true(b) ? yes : is_false(a) && is_false(b) ? no : truth;
    case OpCode::Not:
        return not_of(a);
    default:
        return truth;
    }
}

// Between two rows a value may be a rounding past both.
Bounds of_table(const PlanTable& table) {
    constexpr double rounding = 1e-12;
    const double low = *std::min_element(table.y.begin(), table.y.end());
    const double high = *std::max_element(table.y.begin(), table.y.end());
    return {low - rounding * std::fabs(low), high + rounding * std::fabs(high)};
}

} // namespace

PlanBounds::PlanBounds(const Plan& plan, std::span<const Axis> axes,
                       std::span<const std::optional<Range>> promised)
    : plan_(plan),
      bounds_(plan.size()),
      inputs_(plan.inputs.size()),
      answered_(plan.size(), 0) {
    for (std::size_t i = 0; i < plan.inputs.size(); ++i)
        inputs_[i] = {plan.inputs[i].value, plan.inputs[i].value};
    for (std::size_t k = 0; k < axes.size(); ++k)
        inputs_[axes[k].input] =
            of_axis(axes[k], k < promised.size() ? promised[k] : std::optional<Range>());
    for (Slot i = 0; i < plan.size(); ++i) {
        bounds_[i] = known(of_operation(plan.operations[i]));
        answered_[i] = is_answered(i) ? 1 : 0;
    }
}

// No operation whose operands have answers is without one, but for those named here: past all
// numbers, over zero, the root of what is below zero, outside a table. Of functions nothing is
// known.
bool PlanBounds::is_answered(Slot slot) const {
    const Operation& op = plan_.operations[slot];
    const OpKind kind = kind_of(op.code);
    if (!std::isfinite(bounds_[slot].low) || !std::isfinite(bounds_[slot].high) ||
        kind == OpKind::Function || op.code == OpCode::Native)
        return false;
    if (op.code == OpCode::Select && is_true(bounds_[op.a]))
        return answered_[op.a] != 0 && answered_[op.b] != 0;
    if (op.code == OpCode::Select && is_false(bounds_[op.a]))
        return answered_[op.a] != 0 && answered_[op.c] != 0;
    bool all = true;
    for_each_operand(plan_, op, [&](Slot operand) { all = all && answered_[operand] != 0; });
    switch (op.code) {
    case OpCode::Divide:
        return all && (bounds_[op.b].low > 0 || bounds_[op.b].high < 0);
    case OpCode::Sqrt:
        return all && bounds_[op.a].low >= 0;
    case OpCode::Guard:
        return all && is_true(bounds_[op.a]);
    case OpCode::Table: {
        const PlanTable& table = plan_.tables[op.a];
        return all && (table.hold_below || bounds_[op.b].low >= table.x.front()) &&
               (table.hold_above || bounds_[op.b].high <= table.x.back());
    }
    default:
        return all;
    }
}

std::vector<double> PlanBounds::settled() const {
    std::vector<double> values(plan_.size(), std::nan(""));
    for (Slot i = 0; i < plan_.size(); ++i)
        if (is_truth(plan_.operations[i].code) && answered_[i] != 0 &&
            (is_true(bounds_[i]) || is_false(bounds_[i])))
            values[i] = bounds_[i].low;
    return values;
}

// A trial outside the allowed range has no answer anyway. The range is the line's: of a share of it
// nothing is known by that.
Bounds PlanBounds::of_axis(const Axis& axis, const std::optional<Range>& promised) const {
    if (axis.options > 0)
        return {0, static_cast<double>(axis.options)};
    Bounds bounds = anything;
    if (promised)
        bounds = {promised->low, promised->high};
    if (axis.is_share)
        return bounds;
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

Bounds PlanBounds::of_operation(const Operation& operation) const {
    switch (kind_of(operation.code)) {
    case OpKind::Source:
        return operation.code == OpCode::Input
                   ? inputs_[operation.a]
                   : Bounds{plan_.constants[operation.a], plan_.constants[operation.a]};
    case OpKind::Comparison:
    case OpKind::Logic:
        return of_comparison(operation.code, bounds_[operation.a], bounds_[operation.b]);
    case OpKind::Lookup:
        return operation.code == OpCode::Table ? of_table(plan_.tables[operation.a])
                                               : of_call(plan_.calls[operation.a]);
    case OpKind::Branch:
        return of_branch(operation);
    default:
        return of_arithmetic(operation);
    }
}

Bounds PlanBounds::of_call(const NativeCall& call) const {
    std::vector<Bounds> args;
    for (const Slot arg : call.args)
        args.push_back(bounds_[arg]);
    return native_bounds(call.function, args);
}

Bounds PlanBounds::of_branch(const Operation& operation) const {
    const Bounds b = bounds_[operation.b];
    if (operation.code == OpCode::Guard || is_true(bounds_[operation.a]))
        return b;
    const Bounds c = bounds_[operation.c];
    if (is_false(bounds_[operation.a]))
        return c;
    return {std::min(b.low, c.low), std::max(b.high, c.high)};
}

Bounds PlanBounds::of_arithmetic(const Operation& operation) const {
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
        return {std::sqrt(std::max(a.low, 0.0)), a.high >= 0 ? std::sqrt(a.high) : boundless};
    case OpCode::Abs: {
        const double most = std::max(std::fabs(a.low), std::fabs(a.high));
        return {std::max({a.low, -a.high, 0.0}), most};
    }
    case OpCode::Exp:
        return {0, boundless};
    case OpCode::Min:
        return {std::min(a.low, b.low), std::min(a.high, b.high)};
    case OpCode::Max:
        return {std::max(a.low, b.low), std::max(a.high, b.high)};
    case OpCode::Ceil:
    case OpCode::Floor:
    case OpCode::Round: // to whole numbers, or to multiples of b made of other operations
        return {std::floor(a.low), std::ceil(a.high)};
    default:
        return anything;
    }
}

std::vector<Slot> PlanBounds::perhaps_negative(std::span<const char> varies) const {
    std::vector<Slot> slots;
    for (std::size_t line = 0; line < plan_.line_slot.size(); ++line)
        if (const Slot slot = plan_.line_slot[line]; plan_.not_negative[line] != 0 &&
                                                     slot != no_slot && varies[slot] != 0 &&
                                                     !(bounds_[slot].low >= 0))
            slots.push_back(slot);
    std::sort(slots.begin(), slots.end());
    slots.erase(std::unique(slots.begin(), slots.end()), slots.end());
    return slots;
}

} // namespace acre::engine
