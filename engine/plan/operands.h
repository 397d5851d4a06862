// Which slots an operation reads.
#pragma once

#include <span>

#include "engine/plan/plan.h"

namespace acre::engine {

template <class Visit> void for_each_operand(const Plan& plan, const Operation& op, Visit visit) {
    switch (op.code) {
    case Code::Constant:
    case Code::Input:
        return;
    case Code::Table:
        visit(op.b);
        return;
    case Code::Native:
        for (const Slot arg : plan.calls[op.a].args)
            visit(arg);
        return;
    case Code::Select:
        visit(op.a);
        visit(op.b);
        visit(op.c);
        return;
    case Code::Negate:
    case Code::Sqrt:
    case Code::Exp:
    case Code::Log:
    case Code::Sin:
    case Code::Cos:
    case Code::Tan:
    case Code::Atan:
    case Code::Abs:
    case Code::Ceil:
    case Code::Floor:
    case Code::Round:
    case Code::Not:
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
    case Code::Select:
        visit(op.a);
        if (slot[op.a] == slot[op.a])
            visit(slot[op.a] != 0 ? op.b : op.c);
        return;
    case Code::Guard:
    case Code::And:
        visit(op.a);
        if (slot[op.a] == slot[op.a] && slot[op.a] != 0)
            visit(op.b);
        return;
    case Code::Or:
        visit(op.a);
        if (slot[op.a] == 0)
            visit(op.b);
        return;
    default:
        for_each_operand(plan, op, visit);
    }
}

} // namespace acre::engine
