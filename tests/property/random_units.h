// Random formulas over units with what they come to, by an interpreter of its own: every value is a
// number of base units together with the exponents of those units. It knows the notation's rules
// from the language reference and a table of a dozen units; it shares no code with the program.
#pragma once

#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "tests/support/dice.h"

namespace acre::tests {

// Inch, pound, second, dollar, year, degree, tree.
inline constexpr std::size_t measured = 7;
using Exponents = std::array<int, measured>;

struct Quantity {
    double value = 0; // in base units
    Exponents of{};
    bool fits = true; // no operation on the way had units it cannot take
    bool sure = true; // no comparison or rounding so near that the last bit decides
    bool plain() const { return of == Exponents{}; }
};

struct UnitsFormula {
    std::string text;
    Quantity is;
};

class RandomUnits {
  public:
    explicit RandomUnits(Dice dice) : dice_(dice) {}

    static constexpr std::array<const char*, measured> base_names = {"in", "lb",  "s",   "$",
                                                                     "yr", "deg", "tree"};

    // Of base units: "in^2.s^-1"; empty without any.
    static std::string unit_text(const Exponents& of) {
        std::string text;
        for (std::size_t i = 0; i < measured; ++i)
            if (of[i] != 0)
                text += (text.empty() ? "" : ".") + std::string(base_names[i]) +
                        (of[i] == 1 ? "" : "^" + std::to_string(of[i]));
        return text;
    }
    // Money for each: "$", "$/(in^2)".
    static std::string money_per(const Exponents& of) {
        return of == Exponents{} ? "$" : "$/(" + unit_text(of) + ")";
    }

    // A name that formulas may read from now on.
    void know(const std::string& name, const Quantity& is) { names_.push_back({name, is}); }

    UnitsFormula formula(int depth) {
        if (depth == 0 || dice_.below(6) == 0)
            return leaf();
        switch (dice_.below(11)) {
        case 0:
        case 1:
            return product(formula(depth - 1), formula(depth - 1));
        case 2:
        case 3:
            return quotient(formula(depth - 1), formula(depth - 1));
        case 4:
            return sum(depth);
        case 5:
            return extreme(depth);
        case 6:
            return branches(depth);
        case 7:
            return stepped(depth);
        case 8:
            return raised(depth);
        case 9:
            return rooted(depth);
        default:
            return function_of(depth);
        }
    }

    std::size_t below(std::size_t n) { return dice_.below(n); }

  private:
    struct Named {
        const char* name;
        double value;
        Exponents of;
    };
    // From memory of the handbooks that the catalog cites; exact by definition.
    static const std::vector<Named>& units() {
        static const std::vector<Named> table = {
            {"in", 1, {1}},
            {"ft", 12, {1}},
            {"mi", 5280.0 * 12, {1}},
            {"ac", 43560.0 * 144, {2}},
            {"gal", 231, {3}},
            {"lb", 1, {0, 1}},
            {"ton", 2000, {0, 1}},
            {"min", 60, {0, 0, 1}},
            {"h", 3600, {0, 0, 1}},
            {"yr", 1, {0, 0, 0, 0, 1}},
            {"deg", 1, {0, 0, 0, 0, 0, 1}},
            {"tree", 1, {0, 0, 0, 0, 0, 0, 1}},
            {"%", 0.01, {}},
            {"$", 1, {0, 0, 0, 1}},
            {"mi/h", 5280.0 * 12 / 3600, {1, 0, -1}},
            {"$/h", 1 / 3600.0, {0, 0, -1, 1}},
        };
        return table;
    }

    UnitsFormula leaf() {
        if (!names_.empty() && dice_.below(3) == 0)
            return names_[dice_.below(names_.size())];
        const double count = static_cast<double>(1 + dice_.below(40)) / 4;
        if (dice_.below(5) == 0)
            return {std::to_string(count), {count, {}}};
        const Named& unit = units()[dice_.below(units().size())];
        return {std::to_string(count) + " " + unit.name, {count * unit.value, unit.of}};
    }
    // Of these exponents, or (rarely) of whatever comes.
    UnitsFormula like(const Exponents& of, int depth) {
        if (dice_.below(14) == 0)
            return formula(depth);
        const double count = static_cast<double>(1 + dice_.below(40)) / 4;
        const std::string unit = unit_text(of);
        UnitsFormula out{std::to_string(count) + (unit.empty() ? "" : " ") + unit, {count, of}};
        if (dice_.below(2) == 0) // by way of another unit
            for (const Named& named : units())
                if (named.of == of && dice_.below(2) == 0)
                    return {std::to_string(count) + " " + named.name, {count * named.value, of}};
        return out;
    }

    static Quantity with(const Quantity& a, const Quantity& b, double value, const Exponents& of) {
        return {value, of, a.fits && b.fits, a.sure && b.sure};
    }
    static Quantity alike(const Quantity& a, const Quantity& b, double value) {
        Quantity out = with(a, b, value, a.of);
        out.fits = out.fits && a.of == b.of;
        return out;
    }
    static bool near(double a, double b) {
        return std::fabs(a - b) <= 1e-7 * std::fmax(std::fabs(a), std::fabs(b));
    }

    static bool between_steps(double steps) {
        return std::fabs(steps - std::round(steps)) > 1e-6 && std::fabs(steps) < 1e6;
    }

    static UnitsFormula product(const UnitsFormula& a, const UnitsFormula& b) {
        Exponents of = a.is.of;
        for (std::size_t i = 0; i < measured; ++i)
            of[i] += b.is.of[i];
        return {"(" + a.text + ") * (" + b.text + ")",
                with(a.is, b.is, a.is.value * b.is.value, of)};
    }
    static UnitsFormula quotient(const UnitsFormula& a, const UnitsFormula& b) {
        Exponents of = a.is.of;
        for (std::size_t i = 0; i < measured; ++i)
            of[i] -= b.is.of[i];
        return {"(" + a.text + ") / (" + b.text + ")",
                with(a.is, b.is, a.is.value / b.is.value, of)};
    }
    UnitsFormula sum(int depth) {
        const UnitsFormula a = formula(depth - 1);
        const UnitsFormula b = like(a.is.of, depth - 1);
        if (dice_.below(2) == 0)
            return {"(" + a.text + ") + (" + b.text + ")",
                    alike(a.is, b.is, a.is.value + b.is.value)};
        UnitsFormula out{"(" + a.text + ") - (" + b.text + ")",
                         alike(a.is, b.is, a.is.value - b.is.value)};
        out.is.sure = out.is.sure && !near(a.is.value, b.is.value); // digits are lost
        return out;
    }
    UnitsFormula extreme(int depth) {
        const UnitsFormula a = formula(depth - 1);
        const UnitsFormula b = like(a.is.of, depth - 1);
        const bool least = dice_.below(2) == 0;
        return {
            std::string(least ? "min(" : "max(") + a.text + ", " + b.text + ")",
            alike(a.is, b.is,
                  least ? std::fmin(a.is.value, b.is.value) : std::fmax(a.is.value, b.is.value))};
    }
    UnitsFormula branches(int depth) {
        const UnitsFormula left = formula(depth - 1);
        const UnitsFormula right = like(left.is.of, depth - 1);
        const UnitsFormula yes = formula(depth - 1);
        const UnitsFormula no = like(yes.is.of, depth - 1);
        Quantity is =
            alike(yes.is, no.is, left.is.value < right.is.value ? yes.is.value : no.is.value);
        is.fits = is.fits && left.is.fits && right.is.fits && left.is.of == right.is.of;
        is.sure = is.sure && left.is.sure && right.is.sure && !near(left.is.value, right.is.value);
        return {"(when (" + left.text + ") < (" + right.text + ") then (" + yes.text +
                    ") otherwise (" + no.text + "))",
                is};
    }
    // Up to a multiple of a step; without a step to whole numbers, of plain values only.
    UnitsFormula stepped(int depth) {
        const UnitsFormula a = formula(depth - 1);
        if (dice_.below(4) == 0) {
            Quantity is = a.is;
            is.fits = is.fits && is.plain();
            is.sure = is.sure && between_steps(is.value);
            is.value = std::ceil(is.value);
            return {"ceil(" + a.text + ")", is};
        }
        const UnitsFormula step = like(a.is.of, depth - 1);
        const double steps = a.is.value / step.is.value;
        Quantity is = alike(a.is, step.is, std::ceil(steps) * step.is.value);
        is.sure = is.sure && between_steps(steps);
        return {"ceil(" + a.text + ", " + step.text + ")", is};
    }
    UnitsFormula raised(int depth) {
        const UnitsFormula a = leaf();
        if (dice_.below(3) == 0) { // an exponent that is no whole number: plain values alone
            const UnitsFormula b = like({}, depth - 1);
            Quantity is = with(a.is, b.is, std::pow(a.is.value, b.is.value), {});
            is.fits = is.fits && a.is.plain() && b.is.plain();
            return {"(" + a.text + ") ^ (" + b.text + " * 1)", is};
        }
        const int exponent = static_cast<int>(dice_.below(6)) - 2;
        Exponents of = a.is.of;
        for (int& each : of)
            each *= exponent;
        Quantity is = a.is;
        is.value = std::pow(a.is.value, exponent);
        is.of = of;
        return {"(" + a.text + ") ^ " + std::to_string(exponent), is};
    }
    UnitsFormula rooted(int depth) {
        UnitsFormula a = formula(depth - 1);
        if (dice_.below(8) != 0)
            a = product(a, like(a.is.of, 0));
        Quantity is = a.is;
        for (int& exponent : is.of) {
            is.fits = is.fits && exponent % 2 == 0;
            exponent /= 2;
        }
        is.value = std::sqrt(is.value);
        return {"sqrt(" + a.text + ")", is};
    }
    UnitsFormula function_of(int depth) {
        constexpr double degree = 3.14159265358979323846 / 180;
        UnitsFormula a = formula(depth - 1);
        if (dice_.below(10) != 0)
            a = quotient(a, like(a.is.of, 0));
        const bool plain = a.is.fits && a.is.plain();
        const auto gives = [&](const char* name, double value, Exponents of) {
            return UnitsFormula{std::string(name) + "(" + a.text + ")",
                                {value, of, plain, a.is.sure}};
        };
        switch (dice_.below(5)) {
        case 0:
            return gives("log", std::log(a.is.value), {});
        case 1:
            return gives("atan", std::atan(a.is.value) / degree, {0, 0, 0, 0, 0, 1});
        case 2: {
            const UnitsFormula angle = gives("atan", std::atan(a.is.value) / degree, {});
            return {"cos(" + angle.text + ")",
                    {std::cos(angle.is.value * degree), {}, plain, a.is.sure}};
        }
        case 3: { // an angle where a plain number is wanted, and the other way about
            const UnitsFormula any = leaf();
            Quantity is = any.is;
            is.fits = is.fits && is.of == Exponents{0, 0, 0, 0, 0, 1};
            is.value = std::sin(is.value * degree);
            is.of = {};
            return {"sin(" + any.text + ")", is};
        }
        default: {
            Quantity is = a.is;
            is.value = std::fabs(is.value);
            return {"abs(-(" + a.text + "))", is};
        }
        }
    }

    Dice dice_;
    std::vector<UnitsFormula> names_;
};

} // namespace acre::tests
