#include "engine/readers/value.h"

#include <cmath>

#include "engine/native/native.h"
#include "engine/plan/operands.h"
#include "engine/plan/operations.h"
#include "engine/plan/scalar_rules.h"

namespace acre::engine {

namespace {

double call_native(const NativeCall& call, const double* slot, std::vector<double>& args) {
    args.clear();
    for (const Slot arg : call.args) {
        if (scalar::is_poison(slot[arg]))
            return scalar::poison;
        args.push_back(slot[arg]);
    }
    return scalar::finite(native_functions()[call.function].value(args));
}

} // namespace

Values evaluate(const Plan& plan, std::span<const double> inputs) {
    Values values;
    values.slot.resize(plan.operations.size());
    double* const slot = values.slot.data();
    std::vector<double> args;
    for (std::size_t i = 0; i < plan.operations.size(); ++i) {
        const Operation& op = plan.operations[i];
        switch (op.code) {
        case OpCode::Constant:
            slot[i] = plan.constants[op.a];
            break;
        case OpCode::Input:
            slot[i] = scalar::finite(inputs.empty() ? plan.inputs[op.a].value : inputs[op.a]);
            break;
        case OpCode::Table:
            slot[i] = look_up(plan.tables[op.a], slot[op.b]);
            break;
        case OpCode::Native:
            slot[i] = call_native(plan.calls[op.a], slot, args);
            break;
            // Operands an operation does not have are slot 0, which it does not look at.
#define ACRE_OPERATION(code, kind, reads, rule)                                                    \
    case OpCode::code:                                                                             \
        slot[i] = scalar::on<scalar::rule>(slot[op.a], slot[op.b], slot[op.c]);                    \
        break;
#include "engine/plan/opcodes.def"
        }
    }
    return values;
}

std::vector<char> asked_for(const Plan& plan, const Values& values, std::span<const Slot> roots) {
    std::vector<char> asked(plan.operations.size(), 0);
    for (const Slot root : roots)
        asked[root] = 1;
    const std::vector<double>& slot = values.slot;
    for (std::size_t i = asked.size(); i-- > 0;) {
        if (asked[i] == 0)
            continue;
        for_each_operand_asked(plan, plan.operations[i], slot,
                               [&](Slot operand) { asked[operand] = 1; });
    }
    return asked;
}

} // namespace acre::engine
