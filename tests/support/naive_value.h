// The plainest reader there could be: walks the checked formulas of a sheet one by one, with the C library's functions and no
// plan. What the plan says must be what this says.
#pragma once

#include <cmath>
#include <limits>
#include <string_view>
#include <vector>

#include "lang/check/sheet.h"

namespace acre::tests {

class NaiveValue {
  public:
    explicit NaiveValue(const lang::Sheet& sheet) : sheet_(sheet) {}

    double line(lang::LineId id) { return of(sheet_.lines[id].value, {}); }
    double line(std::string_view name) { return line(sheet_.find(name)); }
    // The largest magnitude met: differences in the last place of a function may have been as large as that.
    double largest() const { return largest_; }

  private:
    using Args = std::vector<double>;
    static constexpr double nan_ = std::numeric_limits<double>::quiet_NaN();

    double of(lang::NodeId id, const Args& args, const lang::Function* in = nullptr) {
        const double value = raw(sheet_.nodes[id], args, in);
        if (std::isfinite(value))
            largest_ = std::fmax(largest_, std::fabs(value));
        return std::isfinite(value) ? value : nan_;
    }

    double raw(const lang::Node& n, const Args& args, const lang::Function* in) {
        using lang::Op;
        const auto value = [&](lang::NodeId id) { return of(id, args, in); };
        const auto each = [&](auto fold) {
            double all = value(sheet_.args[n.first_arg]);
            for (std::uint32_t i = 1; i < n.arg_count; ++i) {
                const double next = value(sheet_.args[n.first_arg + i]);
                all = std::isnan(all) || std::isnan(next) ? nan_ : fold(all, next);
            }
            return all;
        };
        const auto least = [](double a, double b) { return a < b ? a : b; };
        const auto most = [](double a, double b) { return a > b ? a : b; };
        const auto truth = [&](auto holds) {
            const double a = value(n.a);
            const double b = value(n.b);
            return std::isnan(a) || std::isnan(b) ? nan_ : holds(a, b) ? 1.0 : 0.0;
        };
        const auto steps = [&](double (*whole)(double), double nudge) {
            const double step = n.b == lang::none ? 1 : value(n.b);
            const double x = value(n.a) / step;
            const double near = std::nearbyint(x);
            const double dust = 1e-9 * std::fmax(1, std::fabs(x));
            return (std::fabs(x - near) <= dust ? near : whole(x + std::copysign(nudge, x))) * step;
        };
        const double degree = std::acos(-1.0) / 180;
        switch (n.op) {
        case Op::Number:
            return n.number;
        case Op::Choice:
            return n.index;
        case Op::Line:
            return line(n.index);
        case Op::Parameter:
            return args[n.index];
        case Op::Local:
            return value(in->locals[n.index].value);
        case Op::Negate:
            return -value(n.a);
        case Op::Not:
            return 1 - value(n.a);
        case Op::Add:
            return value(n.a) + value(n.b);
        case Op::Subtract:
            return value(n.a) - value(n.b);
        case Op::Multiply:
            return value(n.a) * value(n.b);
        case Op::Divide:
            return value(n.a) / value(n.b);
        case Op::Power: {
            const double a = value(n.a);
            const double b = value(n.b);
            return std::isnan(a) || std::isnan(b) ? nan_ : std::pow(a, b);
        }
        case Op::Less:
            return truth([](double a, double b) { return a < b; });
        case Op::LessEqual:
            return truth([](double a, double b) { return a <= b; });
        case Op::Greater:
            return truth([](double a, double b) { return a > b; });
        case Op::GreaterEqual:
            return truth([](double a, double b) { return a >= b; });
        case Op::Equal:
            return truth([](double a, double b) { return a == b; });
        case Op::NotEqual:
            return truth([](double a, double b) { return a != b; });
        case Op::And: {
            const double a = value(n.a);
            return std::isnan(a) ? nan_ : a == 0 ? 0 : value(n.b);
        }
        case Op::Or: {
            const double a = value(n.a);
            return std::isnan(a) ? nan_ : a != 0 ? 1 : value(n.b);
        }
        case Op::When: {
            const double a = value(n.a);
            return std::isnan(a) ? nan_ : value(a != 0 ? n.b : n.c);
        }
        case Op::Min:
        case Op::Least:
            return each(least);
        case Op::Max:
        case Op::Most:
            return each(most);
        case Op::Sum:
            return each([](double a, double b) { return a + b; });
        case Op::Abs:
            return std::fabs(value(n.a));
        case Op::Sqrt:
            return std::sqrt(value(n.a));
        case Op::Exp:
            return std::exp(value(n.a));
        case Op::Log:
            return std::log(value(n.a));
        case Op::Sin:
            return std::sin(value(n.a) * degree);
        case Op::Cos:
            return std::cos(value(n.a) * degree);
        case Op::Tan:
            return std::tan(value(n.a) * degree);
        case Op::Atan:
            return std::atan(value(n.a)) / degree;
        case Op::Ceil:
            return steps(std::ceil, 0);
        case Op::Floor:
            return steps(std::floor, 0);
        case Op::Round:
            return steps(std::trunc, 0.5);
        case Op::Table:
            return table(sheet_.tables[n.index], value(n.a));
        case Op::Convert:
            return n.conversion.apply(value(n.a));
        case Op::Define: {
            Args inner;
            for (std::uint32_t i = 0; i < n.arg_count; ++i)
                inner.push_back(value(sheet_.args[n.first_arg + i]));
            const lang::Function& function = sheet_.functions[n.index];
            for (const lang::FunctionRange& limit : function.limits) {
                const double x = inner[limit.parameter];
                if (!(x >= of(limit.low, inner, &function) && x <= of(limit.high, inner, &function)))
                    return nan_;
            }
            return of(function.value, inner, &function);
        }
        case Op::Missing:
            return nan_;
        }
        return nan_;
    }

    static double table(const lang::Table& t, double x) {
        if (std::isnan(x) || (x < t.x.front() && !t.hold_below) || (x > t.x.back() && !t.hold_above))
            return nan_;
        if (x <= t.x.front())
            return t.y.front();
        for (std::size_t i = 1; i < t.x.size(); ++i) {
            if (x >= t.x[i])
                continue;
            return t.staircase ? t.y[i - 1] : t.y[i - 1] + (t.y[i] - t.y[i - 1]) * ((x - t.x[i - 1]) / (t.x[i] - t.x[i - 1]));
        }
        return t.y.back();
    }

    const lang::Sheet& sheet_;
    double largest_ = 0;
};

} // namespace acre::tests
