#include "engine/readers/adjoint.h"

#include <algorithm>

#include "engine/native/native.h"
#include "engine/plan/operands.h"
#include "engine/plan/scalar_rules.h"
#include "engine/plan/slope_rules.h"

namespace acre::engine {
namespace {

// Of the segment that look_up reads.
double slope_of(const PlanTable& table, double x) {
    if (table.staircase || x < table.x.front() || x >= table.x.back())
        return 0;
    const auto above = std::upper_bound(table.x.begin(), table.x.end(), x);
    const auto i = static_cast<std::size_t>(above - table.x.begin()) - 1;
    return (table.y[i + 1] - table.y[i]) / (table.x[i + 1] - table.x[i]);
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
        const double bar = bar_[i];
        switch (op.code) {
#define ACRE_OPERATION(code, kind, reads, rule)                                                    \
    case OpCode::code:                                                                             \
        ACRE_PASS_##kind(rule);                                                                    \
        break;
#define ACRE_PASS_Arithmetic(rule)                                                                 \
    pass_by<slope::rule>(op, {bar, value_[op.a], value_[op.b], value_[i]})
#define ACRE_PASS_Simple ACRE_PASS_Arithmetic
#define ACRE_PASS_Function ACRE_PASS_Arithmetic
#define ACRE_PASS_Branch ACRE_PASS_Arithmetic
#define ACRE_PASS_Whole(rule)
#define ACRE_PASS_Comparison(rule)
#define ACRE_PASS_Logic(rule)
#include "engine/plan/opcodes.def"
#undef ACRE_PASS_Arithmetic
#undef ACRE_PASS_Simple
#undef ACRE_PASS_Function
#undef ACRE_PASS_Branch
#undef ACRE_PASS_Whole
#undef ACRE_PASS_Comparison
#undef ACRE_PASS_Logic
        case OpCode::Table:
            give(op.b, bar * slope_of(plan_.tables[op.a], value_[op.b]));
            break;
        case OpCode::Native:
            pass_call(plan_.calls[op.a], bar);
            break;
        case OpCode::Constant:
        case OpCode::Input:
            break;
        }
    }

  private:
    void give(Slot slot, double amount) {
        bar_[slot] += amount;
    }

    template <class Rule> void pass_by(const Operation& op, const slope::At& at) {
        if constexpr (requires { Rule::a(at); })
            if (reached_[op.a])
                give(op.a, Rule::a(at));
        if constexpr (requires { Rule::b(at); })
            if (reached_[op.b])
                give(op.b, Rule::b(at));
        if constexpr (requires { Rule::c(at); })
            if (reached_[op.c])
                give(op.c, Rule::c(at));
    }

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

Adjoint::Adjoint(const Plan& plan, Slot target, const std::vector<char>& ends)
    : plan_(&plan),
      target_(target),
      reached_(plan.size(), 0) {
    for (Slot i = 0; i <= target; ++i) {
        const Operation& op = plan.operations[i];
        if (!ends.empty() && ends[i])
            reached_[i] = 1;
        else if (op.code == OpCode::Input)
            reached_[i] = !plan.inputs[op.a].is_choice;
        else if (!is_flat(op.code))
            for_each_operand(plan, op, [&](Slot operand) { reached_[i] |= reached_[operand]; });
    }
    std::vector<char> asked(plan.size(), 0);
    asked[target] = 1;
    for (Slot i = target + 1; i-- > 0;) {
        if (!asked[i] || !reached_[i] || (!ends.empty() && ends[i]))
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
