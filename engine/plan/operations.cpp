#include "engine/plan/operations.h"

#include <algorithm>
#include <cstddef>

#include "engine/plan/scalar_rules.h"

namespace acre::engine {

double apply(Code code, double a, double b, double c) {
    using namespace scalar;
    switch (code) {
    case Code::Add:
        return add(a, b);
    case Code::Subtract:
        return subtract(a, b);
    case Code::Multiply:
        return multiply(a, b);
    case Code::Divide:
        return divide(a, b);
    case Code::Negate:
        return -a;
    case Code::Power:
        return power(a, b);
    case Code::Sqrt:
        return square_root(a);
    case Code::Exp:
        return exponential(a);
    case Code::Log:
        return logarithm(a);
    case Code::Sin:
        return sine(a);
    case Code::Cos:
        return cosine(a);
    case Code::Tan:
        return tangent(a);
    case Code::Atan:
        return arc_tangent(a);
    case Code::Abs:
        return std::fabs(a);
    case Code::Min:
        return least(a, b);
    case Code::Max:
        return most(a, b);
    case Code::Ceil:
        return ceiling(a);
    case Code::Floor:
        return floored(a);
    case Code::Round:
        return rounded(a);
    case Code::Less:
        return truth(a < b, a, b);
    case Code::LessEqual:
        return truth(a <= b, a, b);
    case Code::Greater:
        return truth(a > b, a, b);
    case Code::GreaterEqual:
        return truth(a >= b, a, b);
    case Code::Equal:
        return truth(a == b, a, b);
    case Code::NotEqual:
        return truth(a != b, a, b);
    case Code::And:
        return both(a, b);
    case Code::Or:
        return either(a, b);
    case Code::Not:
        return negation(a);
    case Code::Select:
        return select(a, b, c);
    case Code::Guard:
        return guard(a, b);
    case Code::Constant:
    case Code::Input:
    case Code::Table:
    case Code::Native:
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
