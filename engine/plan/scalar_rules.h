// The meaning of every operation for one double, written so that it can be said in lanes step by
// step with the same bits. Operands are finite or NaN (poison); so is every result.
#pragma once

#include <cmath>
#include <limits>
#include <type_traits>

#include "engine/plan/math_functions.h"

namespace acre::engine::scalar {

inline constexpr double poison = std::numeric_limits<double>::quiet_NaN();
inline constexpr double degrees_of_a_radian = 57.29577951308232; // 180 / pi, the nearest double

inline bool is_poison(double x) {
    return x != x;
}
inline double finite(double x) {
    return x - x == 0 ? x : poison;
}

// A rule of one, two or three operands, of which those it does not have are not looked at.
template <auto rule> double on(double a, double b, double c) {
    if constexpr (std::is_invocable_v<decltype(rule), double, double, double>)
        return rule(a, b, c);
    else if constexpr (std::is_invocable_v<decltype(rule), double, double>)
        return rule(a, b);
    else
        return rule(a);
}

inline double add(double a, double b) {
    return finite(a + b);
}
inline double subtract(double a, double b) {
    return finite(a - b);
}
inline double multiply(double a, double b) {
    return finite(a * b);
}
inline double divide(double a, double b) {
    return finite(a / b);
}

inline double negative(double a) {
    return -a;
}
inline double magnitude(double a) {
    return std::fabs(a);
}

// The library's power makes 1 of 1 ^ NaN and of NaN ^ 0; poison must stay.
inline double power(double a, double b) {
    return is_poison(a) || is_poison(b) ? poison : finite(math_functions().power(a, b));
}
inline double square_root(double a) {
    return finite(std::sqrt(a));
}
inline double exponential(double a) {
    return finite(math_functions().exp(a));
}
inline double logarithm(double a) {
    return finite(math_functions().log(a));
}
inline double sine(double degrees) {
    return finite(math_functions().sin_half_turns(degrees / 180));
}
inline double cosine(double degrees) {
    return finite(math_functions().cos_half_turns(degrees / 180));
}
inline double tangent(double degrees) {
    const double half_turns = degrees / 180;
    return finite(math_functions().sin_half_turns(half_turns) /
                  math_functions().cos_half_turns(half_turns));
}
inline double arc_tangent(double a) {
    return finite(math_functions().atan(a) * degrees_of_a_radian);
}

inline double least(double a, double b) {
    return is_poison(a) ? a : is_poison(b) ? b : b < a ? b : a;
}
inline double most(double a, double b) {
    return is_poison(a) ? a : is_poison(b) ? b : b > a ? b : a;
}

// How far from a whole number still is that number: the dust that a dozen operations leave, and
// never a real fraction.
inline double dust(double x) {
    const double relative = 1e-9 * std::fabs(x);
    return relative < 1e-9 ? 1e-9 : relative > 1e-3 ? 1e-3 : relative;
}
// The last step adds zero so that no result is minus zero.
inline double ceiling(double x) {
    const double whole = std::floor(x);
    return (x - whole > dust(x) ? whole + 1 : whole) + 0.0;
}
inline double floored(double x) {
    const double whole = std::floor(x);
    return (x - whole >= 1 - dust(x) ? whole + 1 : whole) + 0.0;
}
inline double rounded(double x) {
    const double magnitude = std::fabs(x);
    const double whole = std::floor(magnitude);
    return std::copysign(magnitude - whole + dust(x) >= 0.5 ? whole + 1 : whole, x) + 0.0;
}

inline double truth(bool holds, double a, double b) {
    return is_poison(a) || is_poison(b) ? poison : holds ? 1 : 0;
}
inline double less(double a, double b) {
    return truth(a < b, a, b);
}
inline double less_equal(double a, double b) {
    return truth(a <= b, a, b);
}
inline double greater(double a, double b) {
    return truth(a > b, a, b);
}
inline double greater_equal(double a, double b) {
    return truth(a >= b, a, b);
}
inline double equal(double a, double b) {
    return truth(a == b, a, b);
}
inline double not_equal(double a, double b) {
    return truth(a != b, a, b);
}
inline double both(double a, double b) {
    return is_poison(a) ? a : a == 0 ? 0 : is_poison(b) ? b : b != 0 ? 1 : 0;
}
inline double either(double a, double b) {
    return is_poison(a) ? a : a != 0 ? 1 : is_poison(b) ? b : b != 0 ? 1 : 0;
}
inline double negation(double a) {
    return is_poison(a) ? a : a == 0 ? 1 : 0;
}
inline double select(double a, double b, double c) {
    return is_poison(a) ? a : a != 0 ? b : c;
}
inline double guard(double a, double b) {
    return is_poison(a) ? a : a != 0 ? b : poison;
}

} // namespace acre::engine::scalar
