// Formulas in words: the author's own with values in it, and those that a cost or price made.
#include <string>

#include <doctest/doctest.h>

#include "engine/words/signature.h"
#include "engine/words/words.h"
#include "tests/support/priced.h"

namespace formula_text_test {

using namespace acre::engine;
using acre::tests::Priced;
using acre::tests::priced_ok;

namespace {

std::string with_numbers(const std::string& formula) {
    const Priced job = priced_ok("model \"m\"\nchoice way = one_way | both\n"
                                 "given a = 3 ft\ngiven b = 2 ft\ngiven c = -5\n"
                                 "given how : way = both\ny : 1 = " +
                                 formula + "  may be negative\n");
    return formula_with_numbers(job.job(), job.line("y"));
}

} // namespace

TEST_CASE("values stand in the place of names, and all else as the author wrote it") {
    CHECK(with_numbers("a / b") == "3 ft / 2 ft");
    CHECK(with_numbers("(a - b) * (a + b) / 1 ft^2") == "(3 ft - 2 ft) * (3 ft + 2 ft) / 1 ft^2");
    CHECK(with_numbers("2 - c") == "2 - (-5)"); // below zero: in brackets
    CHECK(with_numbers("max( a,b )/b") == "max( 3 ft,2 ft )/2 ft");
    CHECK(with_numbers("when how is both then c otherwise 2") ==
          "when both is both then (-5) otherwise 2");
    CHECK(with_numbers("a / b   -  # less\n    c") == "3 ft / 2 ft - (-5)");
}

TEST_CASE("what a cost makes is written out, with the brackets that it needs") {
    const Priced job = priced_ok("model \"m\"\npart \"All\"\n  given area = 10 ac  \"acres\"\n"
                                 "  given fuel = $4/gal\n  given oil = $1/gal\n"
                                 "  cost diesel : $/gal = fuel + oil over 3 gal/ac * area\n"
                                 "  given spell = 90 min\n"
                                 "  cost camp : $ = $50 over 1\n"
                                 "  cost hand : $/h = $10/h - $2/h over spell\n"
                                 "price \"Work\" per ac of area\n");
    const auto text = [&](const std::string& name) {
        return formula_text(job.sheet(), job.sources(), job.line(name));
    };
    CHECK(text("diesel") == "fuel + oil");
    CHECK(text("diesel.amount") == "diesel × diesel.quantity");
    CHECK(text("diesel.quantity") == "3 gal/ac * area");
    CHECK(text("hand.amount") == "hand × hand.quantity"); // whatever is converted on the way
    CHECK(formula_with_numbers(job.job(), job.line("diesel.amount")) == "$5.00/gal × 30 gal");
    CHECK(text("cost.total") == "diesel.amount + camp.amount + hand.amount");
    CHECK(formula_with_numbers(job.job(), job.line("cost.total")) == "$150 + $50 + $12");
}

TEST_CASE("runs of blanks and comments are one blank, and a # in quotes is none") {
    CHECK(folded("  a  +\t b # more\r\n  + c ") == "a + b + c");
    CHECK(folded("\"a # b\" + c # d") == "\"a # b\" + c");
    CHECK(folded("\"never closed # x\n y # z") == "\"never closed # x y");
    CHECK(folded(" \n# only a comment") == "");
}

TEST_CASE("a function is told with its parameters, and what one is called") {
    const Priced job =
        priced_ok("model \"m\"\nlist layer = top | pan  \"ground\"\n"
                  "define far (run : ft, pace : mi/h) : min = run / pace\n"
                  "define above (down : ft) each layer (thick : ft, weight : lbf/ft^3) : psf = "
                  "sum(own)\n  own : psf = min(thick, down) * weight\n"
                  "part \"Layers\" each layer\n  given thick : ft = 2 ft\n"
                  "  given weight : lbf/ft^3 = 100 lbf/ft^3\n"
                  "part \"All\"\n  t : min = far(100 ft, 2 mi/h)\n"
                  "  p : psf = above(3 ft, each layer)\n");
    const auto find = [&](const std::string& name) {
        for (const acre::lang::Function& function : job.sheet().functions)
            if (function.name == name && function.rows != 1)
                return function;
        FAIL("no function " << name);
        return job.sheet().functions[0];
    };
    const acre::lang::Function far = find("far"), above = find("above");
    CHECK(signature_of(far) == "far (run : ft, pace : mi/h) : min");
    CHECK(parameters_of(far) == std::vector<std::string>{"run : ft", "pace : mi/h"});
    CHECK(signature_of(above) ==
          "above (down : ft) each layer (thick : ft, weight : lbf/ft^3) : psf");
    CHECK(parameters_of(above) ==
          std::vector<std::string>{"down : ft", "each layer (thick : ft, weight : lbf/ft^3)"});
    CHECK(parameter_name(above, 0) == "down");
    CHECK(parameter_name(above, 1) == "thick");
    CHECK(parameter_name(above, 2) == "weight");
    CHECK(parameter_name(above, 3) == "thick"); // of the second row
    CHECK(parameter_name(above, 4) == "weight");
    CHECK(is_further_copy(above));
    CHECK_FALSE(is_further_copy(far));
}

} // namespace formula_text_test
