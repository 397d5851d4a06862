#include "tests/fuzz/second/value.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace acre::fuzz::second {
namespace {

using boost::multiprecision::abs;
using boost::multiprecision::cpp_int;
using boost::multiprecision::denominator;
using boost::multiprecision::numerator;

constexpr double rounding = 4e-16; // of an operation with a conversion before it
constexpr unsigned most_bits = 1'200;
const Fraction largest = Fraction(pow(cpp_int(10), 290));

// A fraction of very many digits: as many as nobody would miss.
Fraction shortened(const Fraction& is) {
    const cpp_int top = abs(numerator(is));
    if (top == 0)
        return is;
    const auto bits = [](const cpp_int& n) { return static_cast<long>(msb(n)); };
    if (bits(top) + bits(denominator(is)) < static_cast<long>(most_bits))
        return is;
    const long shift = 300 - (bits(top) - bits(denominator(is)));
    const auto by = static_cast<unsigned>(std::labs(shift));
    const cpp_int scale = cpp_int(1) << by;
    const cpp_int digits = shift > 0 ? cpp_int((top * scale) / denominator(is))
                                     : cpp_int(top / (denominator(is) * scale));
    const Fraction made = shift > 0 ? Fraction(digits, scale) : Fraction(digits * scale);
    return is < 0 ? Fraction(-made) : made;
}

Value made(Fraction is, Powers of, double error, bool rational) {
    Value out;
    out.kind = Value::Kind::Number;
    out.is = shortened(is);
    out.of = std::move(of);
    const double size = std::fabs(to_double(out.is));
    out.error = error + rounding * size;
    out.rational = rational;
    // Near the ends of what a double can hold this reader has nothing to say.
    const bool ends = abs(out.is) > largest || (out.is != 0 && abs(out.is) * largest < 1);
    return ends || !std::isfinite(out.error) || (size != 0 && out.error > 1e-4 * size) ? unknown()
                                                                                       : out;
}

const Value* decides(const Value& a, const Value& b) {
    for (const Value::Kind kind :
         {Value::Kind::Misfit, Value::Kind::Unknown, Value::Kind::NoAnswer})
        for (const Value* value : {&a, &b})
            if (value->kind == kind)
                return value;
    return nullptr;
}

double size(const Value& a) {
    return std::fabs(to_double(a.is));
}

Value inexact(double value, Powers of, double error) {
    if (!std::isfinite(value))
        return unknown();
    return made(Fraction(value), std::move(of), error + 4e-16 * std::fabs(value), false);
}

bool far(const Value& a, const Value& b) {
    const double apart = std::fabs(to_double(a.is - b.is));
    return apart > 2 * (a.error + b.error);
}

cpp_int floor_of(const Fraction& x) {
    const cpp_int q = numerator(x) / denominator(x); // toward zero
    return x < 0 && Fraction(q) != x ? cpp_int(q - 1) : q;
}

} // namespace

Value number(Fraction is, Powers of) {
    const double error = rounding * std::fabs(to_double(is));
    return made(std::move(is), std::move(of), error, true);
}
Value truth(bool holds) {
    Value out;
    out.kind = Value::Kind::Truth;
    out.holds = holds;
    return out;
}
Value option(std::string name) {
    Value out;
    out.kind = Value::Kind::Option;
    out.option = std::move(name);
    return out;
}
Value unknown() {
    return {};
}
Value no_answer() {
    Value out;
    out.kind = Value::Kind::NoAnswer;
    return out;
}
Value misfit() {
    Value out;
    out.kind = Value::Kind::Misfit;
    return out;
}
bool passes_on(const Value& a) {
    return a.kind <= Value::Kind::Misfit;
}
double to_double(const Fraction& is) {
    return is.convert_to<double>();
}

Fraction decimal(std::string_view digits) {
    cpp_int whole = 0;
    long places = 0;
    bool point = false;
    std::size_t at = 0;
    for (; at < digits.size() && digits[at] != 'e' && digits[at] != 'E'; ++at) {
        if (digits[at] == '.')
            point = true;
        else if (digits[at] >= '0' && digits[at] <= '9') {
            whole = whole * 10 + (digits[at] - '0');
            places += point ? 1 : 0;
        }
    }
    const long exponent = at < digits.size()
                              ? std::strtol(std::string(digits.substr(at + 1)).c_str(), nullptr, 10)
                              : 0;
    const long power = std::clamp(exponent - places, -400L, 400L);
    const cpp_int ten = pow(cpp_int(10), static_cast<unsigned>(std::labs(power)));
    return power < 0 ? Fraction(whole, ten) : Fraction(whole * ten);
}

Powers times(const Powers& a, const Powers& b, int sign) {
    Powers out = a;
    for (const auto& [base, power] : b)
        if ((out[base] += sign * power) == 0)
            out.erase(base);
    return out;
}

Value add(const Value& a, const Value& b, int sign) {
    if (const Value* which = decides(a, b))
        return *which;
    if (!a.is_number() || !b.is_number() || a.of != b.of)
        return misfit();
    Value sum = made(sign < 0 ? Fraction(a.is - b.is) : Fraction(a.is + b.is), a.of,
                     a.error + b.error, a.rational && b.rational);
    if (sum.kind == Value::Kind::Unknown && a.is == (sign < 0 ? b.is : Fraction(-b.is))) {
        sum = number(0, a.of); // nothing is left but what the roundings leave
        sum.error = a.error + b.error;
        sum.rational = a.rational && b.rational;
    }
    return sum;
}
Value multiply(const Value& a, const Value& b) {
    if (const Value* which = decides(a, b))
        return *which;
    if (!a.is_number() || !b.is_number())
        return misfit();
    return made(a.is * b.is, times(a.of, b.of),
                size(a) * b.error + size(b) * a.error + a.error * b.error,
                a.rational && b.rational);
}
Value divide(const Value& a, const Value& b) {
    if (const Value* which = decides(a, b))
        return *which;
    if (!a.is_number() || !b.is_number())
        return misfit();
    if (b.is == 0)
        return b.error == 0 ? no_answer() : unknown();
    if (size(b) <= 2 * b.error)
        return unknown();
    const Fraction ratio = a.is / b.is;
    return made(ratio, times(a.of, b.of, -1),
                (a.error + std::fabs(to_double(ratio)) * b.error) / (size(b) - b.error),
                a.rational && b.rational);
}
Value negate(Value a) {
    if (!passes_on(a) && !a.is_number())
        return misfit();
    a.is = -a.is;
    return a;
}
Value absolute(Value a) {
    return !passes_on(a) && a.is < 0 ? negate(std::move(a)) : a;
}

Value larger(const Value& a, const Value& b) {
    if (const Value* which = decides(a, b))
        return *which;
    if (!a.is_number() || !b.is_number() || a.of != b.of)
        return misfit();
    Value out = a.is < b.is ? b : a;
    out.error = std::max(a.error, b.error) + rounding * size(out); // the right one is converted
    out.rational = a.rational && b.rational;
    return out;
}
Value smaller(const Value& a, const Value& b) {
    return negate(larger(negate(a), negate(b)));
}

Value raise(const Value& a, const Value& exponent) {
    if (const Value* which = decides(a, exponent))
        return *which;
    if (!a.is_number() || !exponent.is_number() || !exponent.of.empty())
        return misfit();
    const double x = to_double(a.is);
    const double power = to_double(exponent.is);
    if (denominator(exponent.is) == 1 && std::fabs(power) <= 12) {
        const int n = static_cast<int>(power);
        if (n < 0 && a.is == 0)
            return a.error == 0 ? no_answer() : unknown();
        Value out = number(1);
        for (int i = 0; i < std::abs(n); ++i)
            out = multiply(out, a);
        return n < 0 ? divide(number(1), out) : out;
    }
    if (!a.of.empty())
        return misfit();
    if (a.is <= 0 || size(a) <= 4 * a.error)
        return unknown();
    const double made = std::pow(x, power);
    const double share = std::fabs(power) * a.error / x + exponent.error * std::fabs(std::log(x)) +
                         1e-15 * std::fabs(power * std::log(x));
    return inexact(made, {}, 2 * made * share);
}

Value root(const Value& a) {
    if (passes_on(a))
        return a;
    Powers half = a.of;
    for (auto& [base, power] : half) {
        if (power % 2 != 0)
            return misfit();
        power /= 2;
    }
    if (!a.is_number())
        return misfit();
    if (size(a) <= 2 * a.error)
        return unknown();
    if (a.is < 0)
        return no_answer();
    const double made = std::sqrt(to_double(a.is));
    return inexact(made, std::move(half), a.error / made);
}

Value function(std::string_view name, const Value& a) {
    if (passes_on(a))
        return a;
    const bool angle = name == "sin" || name == "cos" || name == "tan";
    if (!a.is_number() || (angle ? a.of != Powers{{"rad", 1}} : !a.of.empty()))
        return misfit();
    const double x = to_double(a.is);
    if (name == "exp")
        return x > 600 ? unknown() : inexact(std::exp(x), {}, 2 * std::exp(x) * a.error);
    if (name == "log") {
        if (size(a) <= 2 * a.error)
            return unknown();
        return x < 0 ? no_answer() : inexact(std::log(x), {}, 2 * a.error / x);
    }
    const double off = a.error + 4e-16 * std::fabs(x);
    if (name == "sin")
        return inexact(std::sin(x), {}, off + 4e-16);
    if (name == "cos")
        return inexact(std::cos(x), {}, off + 4e-16);
    if (name == "atan")
        return inexact(std::atan(x), {{"rad", 1}}, a.error);
    const double near = std::fabs(std::cos(x)) - 2 * off;
    return near < 1e-6 ? unknown() : inexact(std::tan(x), {}, 2 * off / (near * near));
}

Value compare(Order order, const Value& a, const Value& b) {
    if (const Value* which = decides(a, b))
        return *which;
    if (a.kind == Value::Kind::Option || b.kind == Value::Kind::Option)
        return a.kind != b.kind ? misfit()
                                : truth((a.option == b.option) == (order == Order::Equal));
    if (!a.is_number() || !b.is_number() || a.of != b.of)
        return misfit();
    if (!far(a, b))
        return unknown();
    const bool less = a.is < b.is;
    switch (order) {
    case Order::Less:
    case Order::LessEqual:
        return truth(less);
    case Order::Greater:
    case Order::GreaterEqual:
        return truth(!less);
    case Order::Equal:
        return truth(false);
    case Order::NotEqual:
        return truth(true);
    }
    return unknown();
}

Value whole_steps(To to, const Value& a, const Value& step) {
    const Value ratio = divide(a, step);
    if (passes_on(ratio))
        return ratio;
    if (!ratio.of.empty())
        return misfit();
    // So near a whole number (or the middle between two) it counts as there.
    const Fraction dust = Fraction(1, 100'000'000);
    const Fraction x = abs(ratio.is);
    if (x > 10'000'000 || ratio.error > 1e-10)
        return unknown();
    const Fraction half(1, 2);
    const Fraction edge = to == To::Nearest ? half : Fraction(0);
    const Fraction share = x - Fraction(floor_of(x));
    const Fraction away = std::min<Fraction>(abs(share - edge), abs(share - edge - 1));
    if (away != 0 && away < dust * std::max<Fraction>(1, x))
        return unknown();
    if (away == 0 && !ratio.rational)
        return unknown();
    const bool up = to == To::Up;
    const cpp_int steps = to == To::Nearest ? cpp_int(floor_of(x + half) * (ratio.is < 0 ? -1 : 1))
                          : up              ? cpp_int(-floor_of(-ratio.is))
                                            : floor_of(ratio.is);
    return multiply(number(Fraction(steps)), step);
}

} // namespace acre::fuzz::second
