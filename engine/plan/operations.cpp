#include "engine/plan/operations.h"

#include <algorithm>
#include <cstddef>

#include "engine/plan/scalar_rules.h"

namespace acre::engine {

double apply(OpCode code, double a, double b, double c) {
    switch (code) {
#define ACRE_OPERATION(code, kind, reads, rule)                                                    \
    case OpCode::code:                                                                             \
        return scalar::on<scalar::rule>(a, b, c);
#include "engine/plan/opcodes.def"
    case OpCode::Constant:
    case OpCode::Input:
    case OpCode::Table:
    case OpCode::Native:
        break;
    }
    return scalar::poison;
}

double look_up(const PlanTable& table, double x) {
    using scalar::poison;
    if (scalar::is_poison(x))
        return poison;
    if (x < table.x.front())
        return table.hold_below ? table.y.front() : poison;
    if (x > table.x.back())
        return table.hold_above ? table.y.back() : poison;
    const auto above = std::upper_bound(table.x.begin(), table.x.end(), x);
    const auto i = static_cast<std::size_t>(above - table.x.begin()) - 1;
    if (table.staircase || above == table.x.end())
        return table.y[i];
    const double share = (x - table.x[i]) / (table.x[i + 1] - table.x[i]);
    return scalar::finite(table.y[i] + share * (table.y[i + 1] - table.y[i]));
}

} // namespace acre::engine
