#include <cmath>
#include <random>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "engine/explain.h"
#include "tests/support/naive_value.h"
#include "tests/support/priced.h"

using namespace acre;
using namespace acre::tests;

namespace {

// Random models in which every formula is well typed: a formula is made for the unit it must have.
class Author {
  public:
    explicit Author(unsigned seed) : random_(seed) {}

    std::string model(int lines) {
        std::string text =
            "model \"m\"\n"
            "choice ground = soft | firm | hard\n"
            "given soil : ground = firm\n"
            "given ground_now : ground = hard\n"
            "table burn (load : 1) : gal/h below hold above error\n  -4  2\n  0  3.5\n  1  9.25\n  6  11\n"
            "table fee (weight : 1) : step 1 below error above hold\n  -3  1\n  2  4\n  5  0.5\n"
            "define reach (a : ft, b : 1) : ft = wide * b - a / (1 + b ^ 2)\n  wide : ft = a + 2 ft\n"
            "define eased (x : 1) : 1 = when x < 0 then -reach(x * 1 ft, 2) / 1 ft otherwise sqrt(x)\n"
            "  limit x -40 .. 400\n"
            "define mixed (s : ground, x : 1) : 1 = when s is soft then x / 2 when s is hard then x + 1 otherwise eased(x)\n";
        for (const std::string& unit : units) {
            for (int i = 0; i < 3; ++i)
                names_.push_back({"g" + std::to_string(names_.size()), unit});
        }
        for (const Name& name : names_)
            text += "given " + name.text + " = " + literal(name.unit, false) + "\n";
        for (int i = 0; i < lines; ++i) {
            const std::string unit = pick(units);
            const std::string name = "l" + std::to_string(i);
            text += name + " : " + unit + " = " + number(unit, 5) + "\n";
            names_.push_back({name, unit});
        }
        return text;
    }

  private:
    struct Name {
        std::string text, unit;
    };
    const std::vector<std::string> units = {"1", "ft", "h", "mi/h", "$/h"};

    std::size_t below(std::size_t n) { return random_() % n; }
    std::string pick(const std::vector<std::string>& list) { return list[below(list.size())]; }

    std::string literal(const std::string& unit, bool other_units) {
        const std::string digits = std::to_string(below(40)) + "." + std::to_string(below(1000) + 1000).substr(1);
        if (unit == "1")
            return other_units && below(4) == 0 ? digits + " %" : digits;
        if (unit == "ft" && other_units)
            return digits + pick({" in", " ft", " mi", " m"});
        if (unit == "h" && other_units)
            return digits + pick({" min", " h", " s"});
        return digits + " " + unit;
    }
    std::string name(const std::string& unit) {
        std::vector<std::string> fitting;
        for (const Name& name : names_) {
            if (name.unit == unit)
                fitting.push_back(name.text);
        }
        return pick(fitting);
    }
    std::string number(const std::string& unit, int depth) {
        if (depth == 0)
            return below(3) == 0 ? literal(unit, true) : name(unit);
        const auto same = [&] { return number(unit, depth - 1); };
        const auto plain = [&] { return number("1", depth - 1); };
        switch (below(unit == "1" ? 24 : 14)) {
        case 0:
            return name(unit);
        case 1:
            return literal(unit, true);
        case 2:
            return "(" + same() + " + " + same() + ")";
        case 3:
            return "(" + same() + " - " + same() + ")";
        case 4:
            return "(" + same() + " * " + plain() + ")";
        case 5:
            return "(" + same() + " / " + plain() + ")";
        case 6:
            return "min(" + same() + ", " + same() + ", " + same() + ")";
        case 7:
            return "max(" + same() + ", " + same() + ")";
        case 8:
            return "(-abs(" + same() + "))";
        case 9:
            return "(when " + condition(depth - 1) + " then " + same() + " otherwise " + same() + ")";
        case 10:
            return pick({"ceil", "floor", "round"}) + "(" + same() + ", " + literal(unit, false) + ")";
        case 11:
            return unit == "ft" ? "reach(" + same() + ", " + plain() + ")" : same();
        case 12:
            return unit == "ft" ? "(" + number("h", depth - 1) + " * " + number("mi/h", depth - 1) + ")" : same();
        case 13:
            return "(" + plain() + " * " + same() + ")";
        case 14:
            return "sqrt(" + plain() + ")";
        case 15:
            return "exp(" + plain() + " / 50)";
        case 16:
            return "log(" + plain() + ")";
        case 17:
            return "(" + plain() + " ^ 3)";
        case 18:
            return "(" + number("ft", depth - 1) + " / " + number("ft", depth - 1) + ")";
        case 19:
            return "sin(" + plain() + " * 1 deg)";
        case 20:
            return "eased(" + plain() + ")";
        case 21:
            return "mixed(" + pick({"soil", "ground_now", "hard"}) + ", " + plain() + ")";
        case 22:
            return "(burn(" + plain() + ") / 1 gal/h)";
        default:
            return "fee(" + plain() + ")";
        }
    }
    std::string condition(int depth) {
        const std::string unit = pick(units);
        const auto inner = [&] { return "(" + condition(depth - 1) + ")"; };
        if (depth <= 0)
            return name(unit) + " < " + name(unit);
        switch (below(7)) {
        case 0:
            return inner() + " and " + inner();
        case 1:
            return inner() + " or " + inner();
        case 2:
            return "not " + inner();
        case 3:
            return pick({"soil is firm", "soil is not firm", "ground_now is soft", "ground_now is hard"});
        default:
            return number(unit, depth - 1) + pick({" < ", " <= ", " > ", " >= ", " == ", " != "}) + number(unit, depth - 1);
        }
    }

    std::mt19937 random_;
    std::vector<Name> names_;
};

} // namespace

TEST_CASE("the plan says what the plainest reader of the same formulas says") {
    int answers = 0;
    int poisoned = 0;
    for (unsigned seed = 1; seed <= 150; ++seed) {
        const std::string text = Author(seed).model(12);
        CAPTURE(text);
        const Priced p = priced_ok(text);
        for (int i = 0; i < 12; ++i) {
            NaiveValue naive(p.sheet());
            const std::string name = "l" + std::to_string(i);
            const double expected = naive.line(name);
            const double got = p.value(name);
            CAPTURE(name);
            CAPTURE(seed);
            REQUIRE(std::isnan(got) == std::isnan(expected));
            ++(std::isnan(expected) ? poisoned : answers);
            if (!std::isnan(expected))
                REQUIRE(std::fabs(got - expected) <= 1e-11 * std::fmax(naive.largest(), 1));
        }
    }
    // Both kinds must be met, or this proves little.
    CHECK(answers > 600);
    CHECK(poisoned > 60);
}

TEST_CASE("a line without an answer has a fault with a place, a line with one has none, and both can be explained") {
    int faults = 0;
    for (unsigned seed = 200; seed < 260; ++seed) {
        const std::string text = Author(seed).model(12);
        CAPTURE(text);
        const Priced p = priced_ok(text);
        for (int i = 0; i < 12; ++i) {
            const std::string name = "l" + std::to_string(i);
            CAPTURE(name);
            const std::vector<lang::LineId> roots{p.line(name)};
            lang::Diagnostics diagnostics;
            engine::report_faults(p.checked(), *p.compiled, p.values, *p.text.sources, roots, diagnostics);
            REQUIRE((diagnostics.error_count() > 0) == std::isnan(p.value(name)));
            for (const lang::Diagnostic& fault : diagnostics.all()) {
                ++faults;
                REQUIRE(fault.primary.span.begin < fault.primary.span.end);
                REQUIRE(fault.title.find("lawful") == std::string::npos);
                REQUIRE(fault.title.find("`l") != std::string::npos); // the line is named
            }
            const engine::Step step = engine::explain(p.checked(), *p.compiled, p.values, *p.text.sources, roots.front());
            REQUIRE_FALSE(step.written.empty());
            REQUIRE(step.with_numbers.find("g0") == std::string::npos);
        }
    }
    CHECK(faults > 100);
}
