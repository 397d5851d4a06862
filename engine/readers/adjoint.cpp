#include "engine/readers/adjoint.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/native/native.h"
#include "engine/plan/math_functions.h"
#include "engine/plan/operands.h"
#include "engine/plan/scalar_rules.h"

namespace acre::engine {
namespace {

// Steps: between them nothing changes.
bool is_flat(OpCode code) {
    return (code >= OpCode::Less && code <= OpCode::Not) || code == OpCode::Ceil ||
           code == OpCode::Floor || code == OpCode::Round;
}

// Of the segment that look_up reads.
double slope_of(const PlanTable& table, double x) {
    if (table.staircase || x < table.x.front() || x >= table.x.back())
        return 0;
    const auto above = std::upper_bound(table.x.begin(), table.x.end(), x);
    const auto i = static_cast<std::size_t>(above - table.x.begin()) - 1;
    return (table.y[i + 1] - table.y[i]) / (table.x[i + 1] - table.x[i]);
}

// d(a ^ b)/da, with r = a ^ b.
double power_slope(double a, double b, double r) {
    if (a != 0)
        return r * b / a;
    return b == 1 ? 1 : b > 1 || b == 0 ? 0 : std::numeric_limits<double>::infinity();
}
// d(a ^ b)/db. At a = 0 the power is flat in b; below zero it is a number only at whole b.
double exponent_slope(double a, double r) {
    return a == 0 ? 0 : r * math_functions().log(a);
}

class Sweep {
  public:
    Sweep(const Plan& plan, std::span<const double> value, const std::vector<char>& reached,
          std::vector<double>& bar)
        : plan_(plan),
          value_(value),
          reached_(reached),
          bar_(bar) {}

    // Passes what the target owes to slot i on to its operands.
    void pass(Slot i) {
        const Operation& op = plan_.operations[i];
        const double bar = bar_[i], r = value_[i];
        const auto a = [&] { return value_[op.a]; };
        const auto b = [&] { return value_[op.b]; };
        switch (op.code) {
        case OpCode::Add:
            give(op.a, bar);
            give(op.b, bar);
            break;
        case OpCode::Subtract:
            give(op.a, bar);
            give(op.b, -bar);
            break;
        case OpCode::Multiply:
            give(op.a, bar * b());
            give(op.b, bar * a());
            break;
        case OpCode::Divide: {
            const double share = bar / b();
            give(op.a, share);
            give(op.b, -share * r);
            break;
        }
        case OpCode::Negate:
            give(op.a, -bar);
            break;
        case OpCode::Power:
            if (reached_[op.a])
                give(op.a, bar * power_slope(a(), b(), r));
            if (reached_[op.b])
                give(op.b, bar * exponent_slope(a(), r));
            break;
        case OpCode::Sqrt:
            give(op.a, bar * 0.5 / r);
            break;
        case OpCode::Exp:
            give(op.a, bar * r);
            break;
        case OpCode::Log:
            give(op.a, bar / a());
            break;
        case OpCode::Sin:
            give(op.a, bar / scalar::degrees_of_a_radian * scalar::cosine(a()));
            break;
        case OpCode::Cos:
            give(op.a, -bar / scalar::degrees_of_a_radian * scalar::sine(a()));
            break;
        case OpCode::Tan:
            give(op.a, bar / scalar::degrees_of_a_radian * (1 + r * r));
            break;
        case OpCode::Atan:
            give(op.a, bar * scalar::degrees_of_a_radian / (1 + a() * a()));
            break;
        case OpCode::Abs:
            give(op.a, a() < 0 ? -bar : bar);
            break;
        case OpCode::Min:
            give(b() < a() ? op.b : op.a, bar);
            break;
        case OpCode::Max:
            give(b() > a() ? op.b : op.a, bar);
            break;
        case OpCode::Select:
            give(a() != 0 ? op.b : op.c, bar);
            break;
        case OpCode::Guard:
            give(op.b, bar);
            break;
        case OpCode::Table:
            give(op.b, bar * slope_of(plan_.tables[op.a], b()));
            break;
        case OpCode::Native:
            pass_call(plan_.calls[op.a], bar);
            break;
        default:
            break; // constants, inputs and steps pass nothing on
        }
    }

  private:
    void give(Slot slot, double amount) { bar_[slot] += amount; }

    void pass_call(const NativeCall& call, double bar) {
        args_.clear();
        for (const Slot arg : call.args)
            args_.push_back(value_[arg]);
        slopes_.assign(args_.size(), 0);
        native_functions()[call.function].slopes(args_, slopes_);
        for (std::size_t k = 0; k < args_.size(); ++k)
            give(call.args[k], bar * slopes_[k]);
    }

    const Plan& plan_;
    std::span<const double> value_;
    const std::vector<char>& reached_;
    std::vector<double>& bar_;
    std::vector<double> args_, slopes_;
};

} // namespace

Adjoint::Adjoint(const Plan& plan, Slot target)
    : plan_(&plan),
      target_(target),
      reached_(plan.size(), 0) {
    for (Slot i = 0; i <= target; ++i) {
        const Operation& op = plan.operations[i];
        if (op.code == OpCode::Input)
            reached_[i] = !plan.inputs[op.a].is_choice;
        else if (!is_flat(op.code))
            for_each_operand(plan, op, [&](Slot operand) { reached_[i] |= reached_[operand]; });
    }
    std::vector<char> asked(plan.size(), 0);
    asked[target] = 1;
    for (Slot i = target + 1; i-- > 0;) {
        if (!asked[i] || !reached_[i])
            continue;
        way_.push_back(i);
        for_each_operand(plan, plan.operations[i], [&](Slot operand) { asked[operand] = 1; });
    }
}

void Adjoint::run(std::span<const double> value, std::span<double> slope,
                  std::vector<double>& bar) const {
    std::fill(slope.begin(), slope.end(), 0.0);
    if (scalar::is_poison(value[target_])) {
        std::fill(slope.begin(), slope.end(), scalar::poison);
        return;
    }
    bar.assign(static_cast<std::size_t>(target_) + 1, 0.0);
    bar[target_] = 1;
    Sweep sweep(*plan_, value, reached_, bar);
    for (const Slot i : way_) {
        if (bar[i] == 0)
            continue; // not on a branch taken
        const Operation& op = plan_->operations[i];
        if (op.code == OpCode::Input)
            slope[op.a] += scalar::finite(bar[i]);
        else
            sweep.pass(i);
    }
}

std::vector<double> slopes(const Plan& plan, const Values& values, Slot target) {
    std::vector<double> slope(plan.inputs.size(), 0.0), bar;
    Adjoint(plan, target).run(values.slot, slope, bar);
    return slope;
}

} // namespace acre::engine
