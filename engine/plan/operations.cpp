#include "engine/plan/operations.h"

#include <algorithm>
#include <cstddef>

#include "engine/plan/scalar_rules.h"

namespace acre::engine {

double apply(OpCode code, double a, double b, double c) {
    using namespace scalar;
    switch (code) {
    case OpCode::Add:
        return add(a, b);
    case OpCode::Subtract:
        return subtract(a, b);
    case OpCode::Multiply:
        return multiply(a, b);
    case OpCode::Divide:
        return divide(a, b);
    case OpCode::Negate:
        return -a;
    case OpCode::Power:
        return power(a, b);
    case OpCode::Sqrt:
        return square_root(a);
    case OpCode::Exp:
        return exponential(a);
    case OpCode::Log:
        return logarithm(a);
    case OpCode::Sin:
        return sine(a);
    case OpCode::Cos:
        return cosine(a);
    case OpCode::Tan:
        return tangent(a);
    case OpCode::Atan:
        return arc_tangent(a);
    case OpCode::Abs:
        return std::fabs(a);
    case OpCode::Min:
        return least(a, b);
    case OpCode::Max:
        return most(a, b);
    case OpCode::Ceil:
        return ceiling(a);
    case OpCode::Floor:
        return floored(a);
    case OpCode::Round:
        return rounded(a);
    case OpCode::Less:
        return truth(a < b, a, b);
    case OpCode::LessEqual:
        return truth(a <= b, a, b);
    case OpCode::Greater:
        return truth(a > b, a, b);
    case OpCode::GreaterEqual:
        return truth(a >= b, a, b);
    case OpCode::Equal:
        return truth(a == b, a, b);
    case OpCode::NotEqual:
        return truth(a != b, a, b);
    case OpCode::And:
        return both(a, b);
    case OpCode::Or:
        return either(a, b);
    case OpCode::Not:
        return negation(a);
    case OpCode::Select:
        return select(a, b, c);
    case OpCode::Guard:
        return guard(a, b);
    case OpCode::Constant:
    case OpCode::Input:
    case OpCode::Table:
    case OpCode::Native:
        break;
    }
    return poison;
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
