#include "engine/workbook/slot_kinds.h"

#include <cmath>

#include "engine/plan/operands.h"
#include "engine/plan/plan_roots.h"

namespace acre::engine {

using lang::none;

namespace {

class ChoiceSlots {
  public:
    explicit ChoiceSlots(const PricedJob& job)
        : job_(job),
          plan_(job.plan()),
          choice_(plan_.size(), none) {}

    std::vector<std::uint32_t> find() {
        const std::vector<lang::Line>& lines = job_.sheet().lines;
        for (lang::LineId line = 0; line < lines.size(); ++line)
            if (lines[line].type.kind == lang::Type::Kind::Choice)
                mark(slot_of(job_.compiled(), line), lines[line].type.choice);
        // What one pass learns of a branch, the next tells the other branch.
        do {
            changed_ = false;
            for (Slot slot = 0; slot < plan_.size(); ++slot)
                look(slot);
            for (Slot slot = static_cast<Slot>(plan_.size()); slot-- > 0;)
                look(slot);
        } while (changed_);
        return std::move(choice_);
    }

  private:
    void mark(Slot slot, std::uint32_t choice) {
        if (slot == no_slot || choice == none || choice_[slot] != none ||
            plan_.operations[slot].code == OpCode::Constant)
            return;
        choice_[slot] = choice;
        changed_ = true;
    }
    void alike(Slot a, Slot b) {
        mark(a, choice_[b]);
        mark(b, choice_[a]);
    }
    void look(Slot slot) {
        const Operation& op = plan_.operations[slot];
        switch (op.code) {
        case OpCode::Select:
            alike(slot, op.b);
            alike(slot, op.c);
            break;
        case OpCode::Guard:
            alike(slot, op.b);
            break;
        case OpCode::Equal:
        case OpCode::NotEqual:
            alike(op.a, op.b);
            break;
        default:
            break;
        }
    }

    const PricedJob& job_;
    const Plan& plan_;
    std::vector<std::uint32_t> choice_;
    bool changed_ = false;
};

bool may_fail_by_itself(const Plan& plan, const Operation& op) {
    switch (op.code) {
    case OpCode::Constant:
        return std::isnan(plan.constants[op.a]);
    case OpCode::Divide: {
        const Operation& divisor = plan.operations[op.b];
        return divisor.code != OpCode::Constant || plan.constants[divisor.a] == 0;
    }
    case OpCode::Power:
    case OpCode::Sqrt:
    case OpCode::Log:
    case OpCode::Tan:
    case OpCode::Guard:
    case OpCode::Native:
        return true;
    case OpCode::Table:
        return !plan.tables[op.a].hold_below || !plan.tables[op.a].hold_above;
    default:
        return false;
    }
}

} // namespace

std::vector<std::uint32_t> choices_of_slots(const PricedJob& job) {
    return ChoiceSlots(job).find();
}

std::vector<char> slots_that_may_fail(const Plan& plan) {
    std::vector<char> may(plan.size(), 0);
    for (Slot slot = 0; slot < plan.size(); ++slot) {
        const Operation& op = plan.operations[slot];
        may[slot] = may_fail_by_itself(plan, op) ? 1 : 0;
        for_each_operand(plan, op, [&](Slot operand) { may[slot] |= may[operand]; });
    }
    return may;
}

std::vector<char> slots_resting_on(const Plan& plan, const std::vector<Slot>& held) {
    std::vector<char> rests(plan.size(), 0);
    for (const Slot slot : held)
        rests[slot] = 1;
    for (Slot slot = 0; slot < plan.size(); ++slot)
        for_each_operand(plan, plan.operations[slot],
                         [&](Slot operand) { rests[slot] |= rests[operand]; });
    return rests;
}

std::vector<char> slots_asked_by(const Plan& plan, std::vector<char> wanted) {
    for (Slot slot = static_cast<Slot>(plan.size()); slot-- > 0;)
        if (wanted[slot] != 0)
            for_each_operand(plan, plan.operations[slot],
                             [&](Slot operand) { wanted[operand] = 1; });
    return wanted;
}

} // namespace acre::engine
