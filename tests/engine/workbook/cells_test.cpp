// Addresses, names, typed figures and pieces of formulas, as spreadsheets read them.
#include <cmath>
#include <optional>
#include <string>

#include <doctest/doctest.h>

#include "engine/workbook/cell_text.h"
#include "engine/workbook/expression.h"
#include "engine/workbook/typed_cell.h"

namespace cells_test {

using namespace acre;
using namespace acre::engine;

TEST_CASE("columns are counted in letters, rows from one") {
    CHECK(cell_address(0, 0) == "A1");
    CHECK(cell_address(11, 25) == "Z12");
    CHECK(cell_address(8, 26) == "AA9");
    CHECK(cell_address(8, 51) == "AZ9");
    CHECK(cell_address(8, 52) == "BA9");
    CHECK(cell_address(8, 701) == "ZZ9");
    CHECK(cell_address(8, 702) == "AAA9");
    CHECK(fixed_address(11, 2) == "$C$12");
    CHECK(fixed_range(4, 2, 8, 3) == "$C$5:$D$9");
    CHECK(on_sheet("Lines", "$C$12") == "Lines!$C$12");
    CHECK(on_sheet("Lines 2", "$C$12") == "'Lines 2'!$C$12");
}

TEST_CASE("numbers and texts stand in a formula as every spreadsheet reads them") {
    CHECK(formula_number(0) == "0");
    CHECK(formula_number(2.5) == "2.5");
    CHECK(formula_number(-2.5) == "(-2.5)");
    CHECK(formula_number(1e30) == "1E+30");
    CHECK(formula_number(0.1 + 0.2) == "0.30000000000000004");
    CHECK(formula_number(std::nan("")) == "NA()");
    CHECK(formula_text_of("one way") == "\"one way\"");
    CHECK(formula_text_of("6\" pipe") == "\"6\"\" pipe\"");
}

TEST_CASE("what a spreadsheet takes for a cell, a value or another name is called otherwise") {
    const struct {
        const char *name, *is;
    } rows[] = {{"area", "area"},   {"Area", "Area_2"}, {"AREA", "AREA_3"}, {"tip1", "tip1_"},
                {"a9", "a9_"},      {"a0", "a0_"},      {"abc1", "abc1_"},  {"abcd1", "abcd1"},
                {"abc", "abc"},     {"a_1", "a_1"},     {"a1b", "a1b"},     {"r", "r_"},
                {"c", "c_"},        {"R1", "R1_"},      {"c12", "c12_"},    {"rc", "rc_"},
                {"r1c1", "r1c1_"},  {"r12c", "r12c_"},  {"rc3", "rc3_"},    {"cr", "cr"},
                {"r1c1x", "r1c1x"}, {"r1d1", "r1d1"},   {"row", "row"},     {"true", "true_"},
                {"FALSE", "FALSE_"}};
    DefinedNames names;
    for (const auto& row : rows)
        CHECK(names.take(row.name) == row.is);
    CHECK(names.take("tip1") == "tip1__2");
    const std::string longest(255, 'x');
    CHECK(names.take(longest) == longest);
    CHECK(names.take(longest) == ""); // with a `_2` it would be too long
    CHECK(names.take(longest + "y") == "");
}

TEST_CASE("options are words, each another to who does not tell large letters from small") {
    lang::ChoiceType choice;
    choice.options = {"one_way", "loaded", "Loaded", "LOADED"};
    CHECK(option_words(choice) ==
          std::vector<std::string>{"one way", "loaded", "Loaded (2)", "LOADED (3)"});
    CHECK(option_word(choice, 0) == "one way");
    CHECK(option_word(choice, 3) == "LOADED (3)");
    for (const double none : {-1.0, 4.0, std::nan("")})
        CHECK(option_word(choice, none) == "");
}

TEST_CASE("a typed cell is its figure, and none where it may be two things") {
    const auto typed = [](const char* text, const char* unit, bool semicolons = false) {
        const std::optional<double> value = figure_typed(text, unit, semicolons);
        return value ? *value : -999;
    };
    CHECK(typed("$1,234.50", "$/h") == 1234.5);
    CHECK(typed("1234.5", "$/h") == 1234.5);
    CHECK(typed("-3", "ft") == -3);
    CHECK(typed("3 ft", "ft") == -999);
    CHECK(typed("1,234.5", "ft", true) == -999); // between semicolons a comma may be a point
    CHECK(typed("5 %", "%") == 5);
    CHECK(typed("5%", "%") == 5);
    CHECK(typed("5", "%") == 5);
    CHECK(typed("1", "%") == 1);
    CHECK(typed("-1", "%") == -1);
    CHECK(typed("0", "%") == 0);
    CHECK(typed("0.05", "%") == -999); // what a spreadsheet makes of 5 %
    CHECK(typed("-0.99", "%") == -999);
    CHECK(typed("0.05 %", "%") == 0.05);
    CHECK(typed("%", "%") == -999);
    CHECK(typed("17:30", "clock") == 17.5);
    CHECK(typed("7:06", "clock") == doctest::Approx(7.1));
    CHECK(typed("17:30:00", "clock") == 17.5);
    CHECK(typed("17:30:15", "clock") == -999);
    CHECK(typed("17:30:00:00", "clock") == -999);
    CHECK(typed("5:30 PM", "clock") == 17.5);
    CHECK(typed("5:30:00 PM", "clock") == 17.5);
    CHECK(typed("12:15 am", "clock") == 0.25);
    CHECK(typed("0:00", "clock") == 0);
    CHECK(typed("24:00", "clock") == 24);
    for (const char* none : {"25:00", "17:60", "17:-1", "-1:30", "17:005", "017:30", ":30",
                             "17:", "a:30", "17:30 h", "0.73", "-0.5", "noon"})
        CHECK_MESSAGE(typed(none, "clock") == -999, none);
    CHECK(typed("17:59", "clock") == doctest::Approx(17 + 59 / 60.0));
    CHECK(typed("17.5", "clock") == 17.5);
    CHECK(typed("1", "clock") == 1);
    CHECK(typed("0", "clock") == 0);
}

TEST_CASE("a value is written back as the notation has it, with every digit") {
    CHECK(cell_written(5.1, "$/gal") == "$5.1/gal");
    CHECK(cell_written(-5.1, "$/gal") == "-$5.1/gal");
    CHECK(cell_written(0.00001, "ac") == "0.00001 ac");
    CHECK(cell_written(-3, "ft") == "-3 ft");
    CHECK(cell_written(1e21, "1") == "1000000000000000000000");
    CHECK(cell_written(30, "%") == "30 %");
    CHECK(cell_written(17.5, "clock") == "17:30");
    CHECK(number_help("1") == "write a number");
    CHECK(number_help("%").find("5 %") != std::string::npos);
    CHECK(number_help("clock").find("7:30") != std::string::npos);
    CHECK(number_help("ft").ends_with(" ft"));
}

namespace {

const Expression a = word("a"), b = word("b"), c = word("c");

Expression sum(const Expression& x, const Expression& y) {
    return infix(x, "+", y, Expression::sum);
}
Expression difference(const Expression& x, const Expression& y) {
    return infix(x, "-", y, Expression::sum);
}
Expression product(const Expression& x, const Expression& y) {
    return infix(x, "*", y, Expression::product);
}
Expression less(const Expression& x, const Expression& y) {
    return infix(x, "<", y, Expression::comparison);
}

} // namespace

TEST_CASE("brackets stand where programs or readers might differ, and nowhere else") {
    CHECK(sum(product(a, b), c).text == "a*b+c");
    CHECK(product(sum(a, b), c).text == "(a+b)*c");
    CHECK(difference(difference(a, b), c).text == "a-b-c");
    CHECK(difference(a, difference(b, c)).text == "a-(b-c)");
    CHECK(infix(a, "/", product(b, c), Expression::product).text == "a/(b*c)");
    CHECK(less(sum(a, b), c).text == "a+b<c");
    CHECK(less(less(a, b), c).text == "(a<b)<c");
    CHECK(sum(a, minus(b)).text == "a+(-b)");
    CHECK(less(a, minus(b)).text == "a<(-b)");
    CHECK(less(minus(a), b).text == "-a<b");
    CHECK(minus(sum(a, b)).text == "-(a+b)");
    CHECK(minus(minus(a)).text == "-(-a)");
    CHECK(minus(raised(a, b)).text == "-(a^b)"); // a spreadsheet takes -2^2 for 4
    CHECK(raised(minus(a), b).text == "(-a)^b");
    CHECK(raised(raised(a, b), c).text == "(a^b)^c");
    CHECK(raised(a, raised(b, c)).text == "a^(b^c)");
    CHECK(product(raised(a, b), c).text == "a^b*c");
    CHECK(a.is_short());
    CHECK_FALSE(sum(a, b).is_short());
    CHECK_FALSE(call("ABS", a).is_short());
    CHECK(product(sum(a, b), c).depth == 1);
    CHECK(product(c, sum(a, b)).depth == 1);
    CHECK(call("IF", a, call("ABS", b), c).depth == 2);
    CHECK(call("IF", a, b, call("ABS", c)).text == "IF(a,b,ABS(c))");
    CHECK(call("MOD", call("ABS", a), b).depth == 2);
}

TEST_CASE("a call that takes many values is one call of two hundred") {
    const Expression two = gathered("MIN", a, b);
    CHECK(two.text == "MIN(a,b)");
    CHECK(two.depth == 1);
    CHECK(gathered("MIN", two, c).text == "MIN(a,b,c)");
    CHECK(gathered("MIN", two, call("ABS", c)).depth == 2);
    CHECK(gathered("MAX", two, c).text == "MAX(MIN(a,b),c)");
    CHECK(gathered("MIN", c, two).text == "MIN(c,MIN(a,b))");
    Expression many = two;
    for (int i = 2; i < 200; ++i)
        many = gathered("MIN", many, c);
    CHECK(many.values == 200);
    CHECK(many.text.find('(', 4) == std::string::npos);
    many = gathered("MIN", gathered("MIN", many, c), c);
    CHECK(many.values == 3);
    CHECK(many.text.starts_with("MIN(MIN(a,b,c,"));
    CHECK(many.text.ends_with(",c),c,c)"));
}

TEST_CASE("rounding, powers and tangents have the answers of the engine, or none") {
    const std::string dust = "MIN(MAX(1E-9*ABS(a),1E-9),1E-3)";
    CHECK(ceiling_of(a).text == "-INT(" + dust + "-a)");
    CHECK(ceiling_of(sum(a, b)).text == "-INT(MIN(MAX(1E-9*ABS(a+b),1E-9),1E-3)-(a+b))");
    CHECK(floor_of(a).text == "INT(a+" + dust + ")");
    CHECK(rounded_of(a).text == "SIGN(a)*INT(ABS(a)+" + dust + "+0.5)");
    CHECK(sum(b, ceiling_of(a)).text == "b+(-INT(" + dust + "-a))");
    CHECK(power_of(a, b, nullptr).text == "IF(AND(a=0,b=0),1,IF(AND(a<0,b<>INT(b)),NA(),a^b))");
    const auto power = [&](double exponent) { return power_of(a, b, &exponent).text; };
    CHECK(power(0) == "IF(ISNUMBER(a),1,NA())");
    for (const double odd_root : {1.0 / 3, -1.0 / 3, 0.2, 1.0 / 7})
        CHECK(power(odd_root) == "IF(a<0,NA(),a^b)");
    for (const double plain : {1.0, -1.0, 2.0, 3.0, 0.5, 0.25, 1.5, 0.3})
        CHECK(power(plain) == "a^b");
    CHECK(tangent_of(a).text == "IF(MOD(a-90,180)=0,NA(),TAN(RADIANS(a)))");
}

} // namespace cells_test
