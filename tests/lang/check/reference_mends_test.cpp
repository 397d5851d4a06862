// What a message proposes to write is what the place takes: a reference that is found, money under
// the head of a model, a label on one line.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "tests/support/compile_text.h"

namespace reference_mends_test {

using namespace acre;
using namespace acre::lang;
using tests::Choices;
using tests::compile_ok;
using tests::compile_text;
using tests::expect_diag;

namespace {

std::string first_help(const Diagnostic& d) {
    return d.helps.empty() ? "" : d.helps.front().text;
}
std::size_t count_of(const tests::Compilation& c, Code code) {
    const auto& all = c.diagnostics.all();
    return static_cast<std::size_t>(
        std::count_if(all.begin(), all.end(), [&](const Diagnostic& d) { return d.code == code; }));
}

} // namespace

TEST_CASE("a model out of sight is named as its neighbour names it") {
    const std::string top = "model \"m\"\nuse \"models/shapes\"\nuse \"models/work\"\n"
                            "x : 1 = work.y\n";
    Choices choices;
    choices.files = {{"models/shapes.rate", "model \"s\"\ndefine f (a : 1) : 1 = a\n"},
                     {"models/work.rate", "model \"w\"\ny : 1 = f(1)\n"}};
    CHECK(first_help(expect_diag(top, Code::N205, choices)) ==
          "use the model that defines it: write  use \"shapes\"");
    choices.files = {{"models/shapes.rate", "model \"s\"\ndefine f (a : 1) : 1 = a\n"},
                     {"other/work.rate", "model \"w\"\ny : 1 = f(1)\n"}};
    CHECK(first_help(expect_diag("model \"m\"\nuse \"models/shapes\"\nuse \"other/work\"\n"
                                 "x : 1 = work.y\n",
                                 Code::N205, choices)) ==
          "use the model that defines it: write  use \"models/shapes\"");
}

TEST_CASE("a function that two models define differently is one error, not one for each call") {
    Choices choices;
    choices.files = {{"a.rate", "model \"a\"\ndefine f (x : 1) : 1 = x\n"},
                     {"b.rate", "model \"b\"\ndefine f (x : 1) : 1 = x + 1\ny : 1 = f(1)\n"}};
    const auto c = compile_text("model \"m\"\nuse \"a\"\nuse \"b\"\nz : 1 = b.y\n", choices);
    CHECK(count_of(c, Code::N210) == 1);
    CHECK(count_of(c, Code::N205) == 0);
}

TEST_CASE("a model in other money that does not say so is told once, and what to write") {
    const std::string text = "given wage = \u20AC31/h\ngiven fuel : \u20AC/L = \u20AC2/L\n";
    const auto c = compile_text("model \"m\"\n" + text);
    REQUIRE(count_of(c, Code::U314) == 1);
    CHECK(first_help(*c.find(Code::U314)) == "write  money EUR  under its head");
    compile_ok("model \"m\"\nmoney EUR\n" + text);
    Choices choices;
    choices.files = {{"m.rate", "model \"m\"\n" + text},
                     {"f.firm", "firm \"f\"\nmoney EUR \"\u20AC\" to \u20AC0.01\n"}};
    CHECK(first_help(expect_diag("job \"j\"\nmodel \"m\"\nfirm \"f\"\n", Code::U314, choices)) ==
          "write  money EUR  under its head");
}

TEST_CASE("a step of a price is called by its words, without blanks and comments between") {
    const auto c = compile_ok("model \"m\"\ncost k : $ = $100 over 1\nprice \"P\" lump\n"
                              "  overhead    4 % +  # office\n     2 %\n");
    const LineId line = (*c.sheet)->find("p.overhead");
    REQUIRE(line != none);
    CHECK((*c.sheet)->lines[line].label == "overhead 4 % + 2 %");
}

} // namespace reference_mends_test
