#include "engine/workbook/expression.h"

#include <algorithm>
#include <cmath>

#include "engine/workbook/cell_text.h"

namespace acre::engine {

namespace {

constexpr std::size_t most_values = 200; // a spreadsheet takes 255

Expression bracketed(const Expression& a, bool brackets) {
    if (!brackets)
        return a;
    return {"(" + a.text + ")", Expression::whole, a.depth + 1, {}, 0};
}

Expression of_values(std::string_view function, std::string values, int depth) {
    return {
        std::string(function) + "(" + std::move(values) + ")", Expression::whole, depth + 1, {}, 0};
}

// How far from a whole number still is that number.
std::string dust(const std::string& x) {
    return "MIN(MAX(1E-9*ABS(" + x + "),1E-9),1E-3)";
}

// Some programs know a cube root of -8.
bool is_odd_root(double exponent) {
    const double root = std::round(1 / exponent);
    return std::fabs(1 / exponent - root) < 1e-9 && std::fmod(root, 2) != 0;
}

} // namespace

Expression word(std::string text) {
    return {std::move(text), Expression::whole, 0, {}, 0};
}

Expression infix(const Expression& a, std::string_view sign, const Expression& b, int strength) {
    const bool compares = strength == Expression::comparison;
    const Expression left = bracketed(a, compares ? a.strength <= strength : a.strength < strength);
    const Expression right = bracketed(b, b.strength <= strength || b.text.front() == '-');
    return {left.text + std::string(sign) + right.text,
            strength,
            std::max(left.depth, right.depth),
            {},
            0};
}

Expression minus(const Expression& a) {
    const Expression inner = bracketed(a, a.strength < Expression::whole);
    return {"-" + inner.text, Expression::sum, inner.depth, {}, 0};
}

Expression raised(const Expression& a, const Expression& b) {
    const Expression left = bracketed(a, a.strength < Expression::whole);
    const Expression right = bracketed(b, b.strength < Expression::whole);
    return {
        left.text + "^" + right.text, Expression::power, std::max(left.depth, right.depth), {}, 0};
}

Expression call(std::string_view function, const Expression& a) {
    return of_values(function, a.text, a.depth);
}
Expression call(std::string_view function, const Expression& a, const Expression& b) {
    return of_values(function, a.text + "," + b.text, std::max(a.depth, b.depth));
}
Expression call(std::string_view function, const Expression& a, const Expression& b,
                const Expression& c) {
    return of_values(function, a.text + "," + b.text + "," + c.text,
                     std::max({a.depth, b.depth, c.depth}));
}

Expression gathered(std::string_view function, const Expression& a, const Expression& b) {
    const bool joins = a.function == function && a.values < most_values;
    Expression out = joins ? a : call(function, a, b);
    if (joins) {
        out.text.back() = ',';
        out.text += b.text + ")";
        out.depth = std::max(a.depth, b.depth + 1);
    }
    out.function = function;
    out.values = joins ? a.values + 1 : 2;
    return out;
}

Expression ceiling_of(const Expression& x) {
    const Expression inner = bracketed(x, x.strength <= Expression::sum);
    return {
        "-INT(" + dust(x.text) + "-" + inner.text + ")", Expression::sum, inner.depth + 3, {}, 0};
}
Expression floor_of(const Expression& x) {
    return of_values("INT", x.text + "+" + dust(x.text), x.depth + 3);
}
Expression rounded_of(const Expression& x) {
    return {"SIGN(" + x.text + ")*INT(ABS(" + x.text + ")+" + dust(x.text) + "+0.5)",
            Expression::product,
            x.depth + 3,
            {},
            0};
}

Expression power_of(const Expression& a, const Expression& b, const double* written_exponent) {
    const Expression plain = raised(a, b);
    const Expression nothing = call("NA", word(""));
    const auto below_zero = infix(a, "<", word("0"), Expression::comparison);
    if (written_exponent == nullptr) {
        const Expression broken = infix(b, "<>", call("INT", b), Expression::comparison);
        const Expression both_zero =
            gathered("AND", infix(a, "=", word("0"), Expression::comparison),
                     infix(b, "=", word("0"), Expression::comparison));
        return call("IF", both_zero, word("1"),
                    call("IF", gathered("AND", below_zero, broken), nothing, plain));
    }
    if (*written_exponent == 0)
        return call("IF", call("ISNUMBER", a), word("1"), nothing);
    const bool guarded = std::fabs(*written_exponent) != 1 && is_odd_root(*written_exponent);
    return guarded ? call("IF", below_zero, nothing, plain) : plain;
}

Expression tangent_of(const Expression& degrees) {
    const Expression from = infix(degrees, "-", word("90"), Expression::sum);
    const Expression upright =
        infix(call("MOD", from, word("180")), "=", word("0"), Expression::comparison);
    return call("IF", upright, call("NA", word("")), call("TAN", call("RADIANS", degrees)));
}

} // namespace acre::engine
