// Which slots an operation reads.
#pragma once

#include <span>

#include "engine/plan/opcodes.h"

namespace acre::engine {

template <class Visit> void for_each_operand(const Plan& plan, const Operation& op, Visit visit) {
    switch (op.code) {
    case OpCode::Constant:
    case OpCode::Input:
        return;
    case OpCode::Table:
        visit(op.b);
        return;
    case OpCode::Native:
        for (const Slot arg : plan.calls[op.a].args)
            visit(arg);
        return;
    default:
        break;
    }
    const std::size_t count = traits_of(op.code).reads.size();
    visit(op.a);
    if (count > 1)
        visit(op.b);
    if (count > 2)
        visit(op.c);
}

// Those that decide its value, through the branches taken: a condition, then what it lets through.
template <class Visit>
void for_each_operand_asked(const Plan& plan, const Operation& op, std::span<const double> slot,
                            Visit visit) {
    switch (op.code) {
    case OpCode::Select:
        visit(op.a);
        if (slot[op.a] == slot[op.a])
            visit(slot[op.a] != 0 ? op.b : op.c);
        return;
    case OpCode::Guard:
    case OpCode::And:
        visit(op.a);
        if (slot[op.a] == slot[op.a] && slot[op.a] != 0)
            visit(op.b);
        return;
    case OpCode::Or:
        visit(op.a);
        if (slot[op.a] == 0)
            visit(op.b);
        return;
    default:
        for_each_operand(plan, op, visit);
    }
}

} // namespace acre::engine
