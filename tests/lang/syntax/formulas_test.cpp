// Formulas: which tree a text makes. Precedence as in the table of lang/README.md.
#include <doctest/doctest.h>

#include "tests/support/parse_text.h"

namespace formulas_test {

using namespace acre;
using tests::parse_text;

namespace {

// The dump of one formula, or its errors.
std::string formula(std::string_view text) {
    const tests::Parsed p = parse_text("model \"m\"\nx : 1 = " + std::string(text) + "\n");
    if (p.diagnostics.has_errors() || p.module.statements.size() != 1)
        return p.rendered();
    return lang::dump(p.module, std::get<lang::ast::Line>(p.module.statements.front().node).value);
}

struct Case {
    const char* text;
    const char* tree;
};

} // namespace

TEST_CASE("a formula is read by the strength of its operators") {
    for (const Case& c : {
             Case{"a + b * c", "(a + (b * c))"},
             Case{"a * b + c", "((a * b) + c)"},
             Case{"a - b - c", "((a - b) - c)"},
             Case{"a / b / c", "((a / b) / c)"},
             Case{"a / b * c", "((a / b) * c)"},
             Case{"a ^ b ^ c", "(a ^ (b ^ c))"},
             Case{"-a ^ 2", "(- (a ^ 2))"},
             Case{"a ^ -2", "(a ^ (- 2))"},
             Case{"-a * b", "((- a) * b)"},
             Case{"a * -b", "(a * (- b))"},
             Case{"--a", "(- (- a))"},
             Case{"(a + b) * c", "((a + b) * c)"},
             Case{"((a))", "a"},
             Case{"a + b < c * d", "((a + b) < (c * d))"},
             Case{"a <= b", "(a <= b)"},
             Case{"a >= b", "(a >= b)"},
             Case{"a == b", "(a == b)"},
             Case{"a != b", "(a != b)"},
             Case{"not a < b and c is d", "((not (a < b)) and (c is d))"},
             Case{"a or b and c", "(a or (b and c))"},
             Case{"a and b or c", "((a and b) or c)"},
             Case{"a and b and c", "((a and b) and c)"},
             Case{"not not a", "(not (not a))"},
             Case{"soil is not fine", "(soil is not fine)"},
             Case{"soil is yes", "(soil is yes)"},
             Case{"when a then b otherwise c", "(when a then b otherwise c)"},
             Case{"when a then b when c then d otherwise e",
                  "(when a then b otherwise (when c then d otherwise e))"},
             Case{"when a then b otherwise when c then d otherwise e",
                  "(when a then b otherwise (when c then d otherwise e))"},
             Case{"when a or b then c + d otherwise e", "(when (a or b) then (c + d) otherwise e)"},
             Case{"(when a then b otherwise c) * d", "((when a then b otherwise c) * d)"},
             Case{"min(a, b + c, max(d, e))", "min(a, (b + c), max(d, e))"},
             Case{"f()", "f()"},
             Case{"f (a)", "f(a)"},
             Case{"f(a,b)", "f(a, b)"},
             Case{"sum(area)", "sum(area)"},
             Case{"most(x) + least(x)", "(most(x) + least(x))"},
             Case{"crawler.fuel_price * haul.truck.hours",
                  "(crawler.fuel_price * haul.truck.hours)"},
             Case{"cost.total / price.total", "(cost.total / price.total)"},
             Case{"area/width", "(area / width)"},
             Case{"2/3", "(2 / 3)"},
         }) {
        CAPTURE(c.text);
        CHECK(formula(c.text) == c.tree);
    }
}

TEST_CASE("the grammar nests by the strengths of the table of operations") {
    struct Sign {
        std::string text;
        int strength;
    };
    const Sign signs[] = {
#define ACRE_PREFIX(...)
#define ACRE_BINARY(op, sign, shown, strength, ...) {sign, strength},
#define ACRE_FUNCTION(...)
#include "lang/syntax/operations.def"
    };
    int comparisons = 0;
    for (const Sign& first : signs)
        for (const Sign& second : signs) {
            const std::string got = formula("a " + first.text + " b " + second.text + " c");
            CAPTURE(got);
            const std::string left = "((a " + first.text + " b) " + second.text + " c)";
            const std::string right = "(a " + first.text + " (b " + second.text + " c))";
            if (first.strength != second.strength)
                CHECK(got == (first.strength > second.strength ? left : right));
            else if (first.text == "^")
                CHECK(got == right);
            else if (got == left)
                continue;
            else
                ++comparisons; // `a < b < c` is refused
        }
    CHECK(comparisons == 36);
}

TEST_CASE("a number takes the unit behind it and nothing else") {
    for (const Case& c : {
             Case{"7", "7"},
             Case{"0.85", "0.85"},
             Case{"1,850,000", "1850000"},
             Case{"2.5e-3", "0.0025"},
             Case{"2e3", "2000"},
             Case{"80 ac", "80[ac]"},
             Case{"80ac", "80[ac]"},
             Case{"18 %", "18[%]"},
             Case{"18%", "18[%]"},
             Case{"1.5 mi/h", "1.5[mi/h]"},
             Case{"43,560 ft^2", "43560[ft^2]"},
             Case{"12 $/(ac.ft)", "12[$/(ac.ft)]"},
             Case{"3 1/h", "3[1/h]"},
             Case{"4 kg.m^2/s^2", "4[kg.m^2/s^2]"},
             Case{"5 ft^-1", "5[ft^-1]"},
             Case{"$12.50/ac", "12.5[$/ac]"},
             Case{"$1,850,000", "1850000[$]"},
             Case{"$3/(ac.ft)", "3[$/(ac.ft)]"},
             Case{"-$5", "(- 5[$])"},
             Case{"$50 / 3", "(50[$] / 3)"},
             Case{"8 ac / row_width", "(8[ac] / row_width)"},
             Case{"8 ac / 3", "(8[ac] / 3)"},
             Case{"8 ac*x", "(8[ac] * x)"},
             Case{"3 ft ^ 2", "(3[ft] ^ 2)"},
             Case{"when a > 3 then 1 otherwise 2",
                  "(when (a > 3) then 1 otherwise 2)"}, // `then` is no unit
             Case{"h * 3 h", "(h * 3[h])"},             // a name may be spelled as a unit
             Case{"min(1, 2)", "min(1, 2)"},
             Case{"min(1,850, 2)", "min(1850, 2)"},
         }) {
        CAPTURE(c.text);
        CHECK(formula(c.text) == c.tree);
    }
}

TEST_CASE("the place of every piece is kept") {
    const tests::Parsed p =
        parse_text("model \"m\"\nx : mi = (a + $4.35/gal) * when_ok(b)  # note\n");
    REQUIRE(!p.diagnostics.has_errors());
    const lang::ast::Statement& s = p.module.statements.front();
    CHECK(p.text_at(s.span) == "x : mi = (a + $4.35/gal) * when_ok(b)");
    const auto& line = std::get<lang::ast::Line>(s.node);
    CHECK(p.text_at(line.name.span) == "x");
    CHECK(p.text_at(line.unit.span) == "mi");
    const lang::ast::Expr& product = p.module.exprs[line.value];
    CHECK(p.text_at(product.span) == "(a + $4.35/gal) * when_ok(b)");
    const auto& binary = std::get<lang::ast::Binary>(product.node);
    CHECK(p.text_at(binary.op_span) == "*");
    CHECK(p.text_at(p.module.exprs[binary.left].span) ==
          "(a + $4.35/gal)"); // brackets belong to what they hold
    const auto& call = std::get<lang::ast::Call>(p.module.exprs[binary.right].node);
    CHECK(p.text_at(call.function.span) == "when_ok");
    CHECK(p.text_at(p.module.exprs[binary.right].span) == "when_ok(b)");
    const auto& inner = std::get<lang::ast::Binary>(p.module.exprs[binary.left].node);
    const auto& money = std::get<lang::ast::Number>(p.module.exprs[inner.right].node);
    CHECK(p.text_at(p.module.exprs[inner.right].span) == "$4.35/gal");
    CHECK(p.text_at(money.unit->span) == "/gal");
    CHECK(money.unit->dollar);
}

} // namespace formulas_test
