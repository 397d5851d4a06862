// Which slots an operation reads.
#pragma once

#include <span>

#include "engine/plan/plan.h"

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
    case OpCode::Select:
        visit(op.a);
        visit(op.b);
        visit(op.c);
        return;
    case OpCode::Negate:
    case OpCode::Sqrt:
    case OpCode::Exp:
    case OpCode::Log:
    case OpCode::Sin:
    case OpCode::Cos:
    case OpCode::Tan:
    case OpCode::Atan:
    case OpCode::Abs:
    case OpCode::Ceil:
    case OpCode::Floor:
    case OpCode::Round:
    case OpCode::Not:
        visit(op.a);
        return;
    default:
        visit(op.a);
        visit(op.b);
    }
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
