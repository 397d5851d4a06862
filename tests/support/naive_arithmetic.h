// Operations of numbers that carry a bound of their error, for naive_value.h.
#pragma once

#include <cmath>
#include <limits>

#include "lang/check/sheet.h"

namespace acre::tests {

struct Naive {
    double value = 0; // NaN: no answer
    double error = 0; // at most so far from what any other sound reader says
    bool sure = true; // false: another reader may have decided otherwise on the way, and nothing
                      // can be said

    bool no_answer() const { return std::isnan(value); }
    // What another reader says can be so.
    bool agrees(double other) const {
        return !sure || (no_answer() ? std::isnan(other) : std::fabs(other - value) <= error);
    }
};

class NaiveArithmetic {
  protected:
    static constexpr double unit = 1e-15; // a few roundings
    static constexpr double degree = 3.14159265358979323846 / 180;

    static Naive poison() { return {std::numeric_limits<double>::quiet_NaN(), 0, true}; }
    static Naive unsure() { return {std::numeric_limits<double>::quiet_NaN(), 0, false}; }
    static bool exact(const Naive& a) { return a.error == 0; }

    // A result with one rounding more. Near the ends of the range of doubles nothing is certain.
    static Naive rounded(double value, double error, bool sure) {
        if (std::isnan(value))
            return {value, 0, sure};
        const double size = std::fabs(value);
        const Naive made{value, error + unit * size, sure};
        return size > 1e290 || (size < 1e-290 && size > 0) || !std::isfinite(made.error) ? unsure()
                                                                                         : made;
    }
    // The same of factors: what comes to zero may be a rest too small for a double.
    static Naive product(double value, double error, bool sure, bool of_nothing) {
        return value == 0 && !of_nothing ? Naive{0, error + 1e-290, sure}
                                         : rounded(value, error, sure);
    }
    static Naive truth(bool holds, double apart, double error, bool sure) {
        return error > 0 && apart <= error ? unsure() : Naive{holds ? 1.0 : 0.0, 0, sure};
    }

    static Naive one(const lang::Node& n, const Naive& a) {
        using lang::Op;
        const bool near_zero = !exact(a) && std::fabs(a.value) <= a.error;
        switch (n.op) {
        case Op::Negate:
            return {-a.value, a.error, a.sure};
        case Op::Not:
            return {a.value == 0 ? 1.0 : 0.0, 0, a.sure};
        case Op::Abs:
            return {std::fabs(a.value), a.error, a.sure};
        case Op::Sqrt:
            return near_zero ? unsure()
                             : rounded(std::sqrt(a.value),
                                       exact(a) ? 0 : a.error / std::sqrt(a.value), a.sure);
        case Op::Exp:
            return product(std::exp(a.value),
                           std::exp(a.value) * std::expm1(std::fmin(a.error, 700.0)), a.sure,
                           false);
        case Op::Log:
            if (near_zero)
                return unsure();
            return a.value > 0 ? rounded(std::log(a.value),
                                         2 * a.error / (a.value - a.error) + unit, a.sure)
                               : Naive{std::numeric_limits<double>::quiet_NaN(), 0, a.sure};
        case Op::Sin:
            return rounded(std::sin(a.value * degree), angle_error(a) + unit, a.sure);
        case Op::Cos:
            return rounded(std::cos(a.value * degree), angle_error(a) + unit, a.sure);
        case Op::Tan: {
            const double far = std::fabs(std::cos(a.value * degree)) - 2 * angle_error(a);
            return far < 1e-6 ? unsure()
                              : rounded(std::tan(a.value * degree),
                                        2 * angle_error(a) / (far * far) + unit, a.sure);
        }
        case Op::Atan:
            return rounded(std::atan(a.value) / degree, a.error / degree, a.sure);
        case Op::Convert: {
            const double moved =
                std::fabs(n.conversion.apply(a.value + a.error) - n.conversion.apply(a.value));
            return product(n.conversion.apply(a.value), 2 * moved, a.sure, a.value == 0);
        }
        default:
            return unsure();
        }
    }
    static double angle_error(const Naive& a) {
        return (a.error + unit * std::fabs(a.value)) * degree;
    }

    static Naive two(lang::Op op, const Naive& a, const Naive& b, bool sure) {
        using lang::Op;
        const double apart = std::fabs(a.value - b.value);
        const double error = a.error + b.error;
        switch (op) {
        case Op::Add:
            return rounded(a.value + b.value, error, sure);
        case Op::Subtract:
            return rounded(a.value - b.value, error, sure);
        case Op::Multiply:
            return product(a.value * b.value,
                           std::fabs(a.value) * b.error + std::fabs(b.value) * a.error +
                               a.error * b.error,
                           sure, a.value == 0 || b.value == 0);
        case Op::Divide:
            return divide(a, b, sure);
        case Op::Power:
            return power(a, b, sure);
        case Op::Less:
            return truth(a.value < b.value, apart, error, sure);
        case Op::LessEqual:
            return truth(a.value <= b.value, apart, error, sure);
        case Op::Greater:
            return truth(a.value > b.value, apart, error, sure);
        case Op::GreaterEqual:
            return truth(a.value >= b.value, apart, error, sure);
        case Op::Equal:
            return truth(a.value == b.value, apart, error, sure);
        case Op::NotEqual:
            return truth(a.value != b.value, apart, error, sure);
        default:
            return unsure();
        }
    }
    static Naive divide(const Naive& a, const Naive& b, bool sure) {
        if (b.value == 0 && exact(b))
            return {std::numeric_limits<double>::quiet_NaN(), 0, sure};
        if (std::fabs(b.value) <= b.error)
            return unsure();
        const double ratio = a.value / b.value;
        return product(ratio,
                       (a.error + std::fabs(ratio) * b.error) / (std::fabs(b.value) - b.error),
                       sure, a.value == 0);
    }
    static Naive power(const Naive& a, const Naive& b, bool sure) {
        const double result = std::pow(a.value, b.value);
        if (std::isnan(result) || std::isinf(result))
            return exact(a) && exact(b) ? Naive{std::numeric_limits<double>::quiet_NaN(), 0, sure}
                                        : unsure();
        const bool whole_exponent = exact(b) && b.value == std::nearbyint(b.value);
        if (!exact(a) && (std::fabs(a.value) <= 2 * a.error || (a.value < 0 && !whole_exponent)))
            return unsure();
        double share = exact(a) ? 0 : std::fabs(b.value) * a.error / (std::fabs(a.value) - a.error);
        share += exact(b) || a.value == 0 ? 0 : b.error * std::fabs(std::log(std::fabs(a.value)));
        // The library takes the logarithm times the exponent: what is lost there grows with it.
        share += unit * (a.value == 0 ? 0 : std::fabs(b.value * std::log(std::fabs(a.value))));
        return share > 0.1 ? unsure()
                           : product(result, std::fabs(result) * 2 * share, sure, a.value == 0);
    }

    static Naive whole(lang::Op op, const Naive& a, const Naive& step) {
        if (a.no_answer() || step.no_answer())
            return {std::numeric_limits<double>::quiet_NaN(), 0, a.sure && step.sure};
        const Naive ratio = divide(a, step, a.sure && step.sure);
        if (ratio.no_answer())
            return ratio;
        const double x = ratio.value;
        if (std::fabs(x) > 1e9)
            return unsure();
        const double dust = std::fmin(1e-9 * std::fmax(1, std::fabs(x)), 1e-3);
        const double edge =
            op == lang::Op::Round
                ? std::fabs(std::fabs(std::fabs(x) - std::floor(std::fabs(x)) - 0.5) - dust)
                : std::fabs(std::fabs(x - std::nearbyint(x)) - dust);
        if (edge <= ratio.error + 1e-13 * std::fmax(1, std::fabs(x)))
            return unsure();
        double steps = 0;
        if (op == lang::Op::Round)
            steps = std::copysign(std::floor(std::fabs(x) + 0.5 + dust), x);
        else if (std::fabs(x - std::nearbyint(x)) <= dust)
            steps = std::nearbyint(x);
        else
            steps = op == lang::Op::Ceil ? std::ceil(x) : std::floor(x);
        return rounded(steps * step.value, std::fabs(steps) * step.error, ratio.sure);
    }

    static Naive table(const lang::Table& t, const Naive& at) {
        const double x = at.value;
        const auto near = [&](double edge) {
            return !exact(at) && std::fabs(x - edge) <= at.error;
        };
        if ((near(t.x.front()) && !t.hold_below) || (near(t.x.back()) && !t.hold_above))
            return unsure();
        if ((x < t.x.front() && !t.hold_below) || (x > t.x.back() && !t.hold_above))
            return {std::numeric_limits<double>::quiet_NaN(), 0, at.sure};
        double steepest = 0;
        double largest = std::fabs(t.y.front());
        double y = x <= t.x.front() ? t.y.front() : t.y.back();
        bool found = x <= t.x.front() || x >= t.x.back();
        for (std::size_t i = 1; i < t.x.size(); ++i) {
            const double slope = (t.y[i] - t.y[i - 1]) / (t.x[i] - t.x[i - 1]);
            steepest = std::fmax(steepest, std::fabs(slope));
            largest = std::fmax(largest, std::fabs(t.y[i]));
            if (t.staircase && near(t.x[i]))
                return unsure();
            if (!found && x < t.x[i]) {
                y = t.staircase ? t.y[i - 1] : t.y[i - 1] + slope * (x - t.x[i - 1]);
                found = true;
            }
        }
        return t.staircase
                   ? Naive{y, 0, at.sure}
                   : rounded(y,
                             steepest * (at.error + 4 * unit * std::fabs(x)) + 8 * unit * largest,
                             at.sure);
    }
};

} // namespace acre::tests
