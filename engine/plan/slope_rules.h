// What each operation passes back of a slope: from what the target owes to its result, what it owes
// to each operand. Operations that are flat pass nothing, and have no rule here.
#pragma once

#include <limits>

#include "engine/plan/math_functions.h"
#include "engine/plan/scalar_rules.h"

namespace acre::engine::slope {

struct At {
    double bar;     // the slope of the target over the result
    double a, b, r; // values of the operands and of the result
};

struct add {
    static double a(const At& at) { return at.bar; }
    static double b(const At& at) { return at.bar; }
};
struct subtract {
    static double a(const At& at) { return at.bar; }
    static double b(const At& at) { return -at.bar; }
};
struct multiply {
    static double a(const At& at) { return at.bar * at.b; }
    static double b(const At& at) { return at.bar * at.a; }
};
struct divide {
    static double a(const At& at) { return at.bar / at.b; }
    static double b(const At& at) { return -(at.bar / at.b) * at.r; }
};
struct negative {
    static double a(const At& at) { return -at.bar; }
};
struct power {
    static double a(const At& at) {
        if (at.a != 0)
            return at.bar * (at.r * at.b / at.a);
        const double steep = std::numeric_limits<double>::infinity();
        return at.bar * (at.b == 1 ? 1 : at.b > 1 || at.b == 0 ? 0 : steep);
    }
    // At a = 0 the power is flat in b; below zero it is a number only at whole b.
    static double b(const At& at) {
        return at.bar * (at.a == 0 ? 0 : at.r * math_functions().log(at.a));
    }
};
struct square_root {
    static double a(const At& at) { return at.bar * 0.5 / at.r; }
};
struct exponential {
    static double a(const At& at) { return at.bar * at.r; }
};
struct logarithm {
    static double a(const At& at) { return at.bar / at.a; }
};
struct sine {
    static double a(const At& at) {
        return at.bar / scalar::degrees_of_a_radian * scalar::cosine(at.a);
    }
};
struct cosine {
    static double a(const At& at) {
        return -at.bar / scalar::degrees_of_a_radian * scalar::sine(at.a);
    }
};
struct tangent {
    static double a(const At& at) {
        return at.bar / scalar::degrees_of_a_radian * (1 + at.r * at.r);
    }
};
struct arc_tangent {
    static double a(const At& at) {
        return at.bar * scalar::degrees_of_a_radian / (1 + at.a * at.a);
    }
};
struct magnitude {
    static double a(const At& at) { return at.a < 0 ? -at.bar : at.bar; }
};
struct least {
    static double a(const At& at) { return at.b < at.a ? 0 : at.bar; }
    static double b(const At& at) { return at.b < at.a ? at.bar : 0; }
};
struct most {
    static double a(const At& at) { return at.b > at.a ? 0 : at.bar; }
    static double b(const At& at) { return at.b > at.a ? at.bar : 0; }
};
// Conditions are flat: the branch that is taken is owed all.
struct select {
    static double b(const At& at) { return at.a != 0 ? at.bar : 0; }
    static double c(const At& at) { return at.a != 0 ? 0 : at.bar; }
};
struct guard {
    static double b(const At& at) { return at.bar; }
};

} // namespace acre::engine::slope
