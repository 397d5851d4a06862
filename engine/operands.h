// Which slots an operation reads.
#pragma once

#include "engine/plan.h"

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

} // namespace acre::engine
