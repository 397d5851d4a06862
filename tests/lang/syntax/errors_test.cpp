// What is said about a formula or a word that cannot be read.
#include <doctest/doctest.h>

#include "tests/support/syntax_cases.h"

namespace errors_test {

using acre::tests::check_said;

TEST_CASE("a value that is missing is told at the sign before it") {
    check_said({
        {"x : 1 = a *", "S103 2:11 * | a value is missing after `*` | nothing to multiply by"},
        {"x : 1 = a * # none",
         "S103 2:11 * | a value is missing after `*` | nothing to multiply by"},
        {"x : 1 = a /", "S103 2:11 / | a value is missing after `/` | nothing to divide by"},
        {"x : 1 = a +", "S103 2:11 + | a value is missing after `+` | nothing to add"},
        {"x : 1 = a -", "S103 2:11 - | a value is missing after `-` | nothing to subtract"},
        {"x : 1 = a ^", "S103 2:11 ^ | a value is missing after `^` | no power"},
        {"x : 1 =", "S103 2:7 = | a value is missing after `=` | no formula"},
        {"x : 1 = * a", "S103 2:7 = | a value is missing after `=` | no formula"},
        {"x : 1 = ()", "S103 2:9 ( | a value is missing after `(` | nothing in the parentheses"},
        {"x : 1 = f(a, )", "S103 2:12 , | a value is missing after `,` | no value after the comma"},
        {"x : 1 = a and", "S103 2:11 and | a value is missing after `and` | no second condition"},
        {"x : 1 = not", "S103 2:9 not | a value is missing after `not` | no condition"},
        {"x : 1 = a ==", "S103 2:11 == | a value is missing after `==` | nothing to compare with"},
        {"x : 1 = when then 1 otherwise 2",
         "S103 2:9 when | a value is missing after `when` | no condition"},
        {"x : 1 = when a then otherwise 2",
         "S103 2:16 then | a value is missing after `then` | no value for this case"},
        {"x : 1 = when a then b otherwise", "S103 2:23 otherwise | a value is missing after "
                                            "`otherwise` | no value for the other cases"},
        {"x : 1 = a is", "S103 2:11 is | the name of a choice is missing after `is`"},
        {"x : 1 = a * \"b\"",
         "S103 2:11 * | a value is missing after `*` | nothing to multiply by"},
        {"x : 1 = $", "S103 2:9 $ | a value is missing after `$` | no amount"},
        {"given a =", "S103 2:9 = | a value is missing after `=` | no formula"},
        {"given a = b |", "S103 2:13 | | the name of a choice is missing after `|`"},
        {"given a = 1 within",
         "S103 2:13 within | a value is missing after `within` | no lower bound"},
        {"given a = 1 within 0 ..",
         "S103 2:22 .. | a value is missing after `..` | no upper bound"},
        {"given a = 1 within 0", "S103 2:20 0 | `..` and an upper bound are missing after `0`"},
        {"given a = 1 swing pert", "S103 2:19 pert | a value is missing after `pert`"},
        {"given", "S103 2:1 given | a name is missing after `given`"},
        {"given 3 = 4",
         "S103 2:7 3 | a name is missing after `given` | a name must start with a letter"},
        {"given a = 1 because", "S103 2:13 because | text in quotes is missing after `because`"},
        {"choice a =", "S103 2:10 = | the name of a choice is missing after `=`"},
        {"choice a", "S103 2:8 a | `=` and a value are missing after `a`"},
        {"unit a = gal", "S103 2:8 = | a value is missing after `=` | no formula"},
        {"cost a : $/h = b", "S103 2:16 b | `over` is missing after `b`"},
        {"cost a : $/h = b over", "S103 2:18 over | a value is missing after `over` | no quantity"},
        {"event a = 1 over b", "S103 2:18 b | `costs` is missing after `b`"},
        {"correlate a b 60 %", "S103 2:11 a | a comma is missing after `a`"},
        {"require a < b", "S103 2:13 b | text in quotes is missing after `b`"},
        {"caution", "S103 2:1 caution | text in quotes is missing after `caution`"},
        {"part", "S103 2:1 part | text in quotes is missing after `part`"},
        {"part \"A\" each", "S103 2:10 each | a name is missing after `each`"},
        {"price \"A\"", "S103 2:7 \"A\" | `per` or `lump` is missing after `\"A\"`"},
        {"price \"A\" per ac", "S103 2:15 ac | `of` is missing after `ac`"},
        {"price \"A\" lump\n  at 3", "S103 3:3 at | `least` is missing after `at`"},
        {"price \"A\" lump\n  round up $5", "S103 3:9 up | `to` is missing after `up`"},
        {"price \"A\" lump\n  margin", "S103 3:3 margin | a value is missing after `margin`"},
        {"table t (a : ft) : 1 below\n  1 2\n  2 3",
         "S103 2:22 below | `hold` or `error` is missing after `below`"},
        {"table t (a : ft) : 1\n  1 2\n  2", "S103 4:3 2 | a table row is two numbers"},
        {"define f (a : ft) : ft = a\n  known",
         "S103 3:3 known | `known` needs a word: how sure is the formula?"},
        {"x : 1 = a + when b then 1 otherwise 2",
         "S103 2:13 when | a `when` inside a formula needs parentheses"},
        {"x : 1 = when a then when b then 1 otherwise 2 otherwise 3",
         "S103 2:21 when | a `when` inside a formula needs parentheses"},
    });
}

TEST_CASE("a bracket without its partner is told at the bracket") {
    check_said({
        {"x : 1 = (a + b", "S101 2:9 ( | a parenthesis is not closed | opened here"},
        {"x : 1 = ((a) + f(b, c)", "S101 2:9 ( | a parenthesis is not closed | opened here"},
        {"x : 1 = a * f(b, (c)", "S101 2:14 ( | a parenthesis is not closed | opened here"},
        {"x : 1 = a)", "S101 2:10 ) | a closing parenthesis has no opening one | no ( before this"},
        {"x : 1 = (a))",
         "S101 2:12 ) | a closing parenthesis has no opening one | no ( before this"},
        {"define f (a : ft : ft = a", "S101 2:10 ( | a parenthesis is not closed | opened here"},
        {"x : 1 = (a b)", "S110 2:12 b | an operator is missing before `b`"},
        {"table t : ft", "S103 2:7 t | `(` is missing after `t`"},
    });
}

TEST_CASE("a text ends on its line") {
    check_said({
        {"part \"A", "S102 2:6 \"A | text in quotes is not closed | opened here"},
        {"given a = 1 \"b  # not a comment",
         "S102 2:13 \"b  # not a comment | text in quotes is not closed | opened here"},
        {"given a = \"b", "S102 2:11 \"b | text in quotes is not closed | opened here"},
        {"part \"A\nx : 1 = 3", "S102 2:6 \"A | text in quotes is not closed | opened here"},
    });
}

TEST_CASE("a unit is written in one piece behind a colon or a number") {
    check_said({
        {"travel = area", "S105 2:1 travel | the unit of `travel` is missing | no unit"},
        {"cost fuel = a over b", "S105 2:6 fuel | the unit of `fuel` is missing | no unit"},
        {"x : = 3", "S105 2:3 : | a unit is missing after `:` | no unit"},
        {"x : 2 = 3",
         "S107 2:5 2 | a unit must start with a letter, % or a sign of money | a number"},
        {"define f (a) : ft = a", "S105 2:11 a | the unit of `a` is missing | no unit"},
        {"x : ft = 8 ac /row_width",
         "S107 2:15 / | unclear whether this `/` divides or belongs to a unit"},
        {"x : ft = 8 ac/ row_width",
         "S107 2:14 / | unclear whether this `/` divides or belongs to a unit"},
        {"x : ft = 5/h", "S107 2:11 / | unclear whether this `/` divides or belongs to a unit"},
        {"x : ft = a * 5 /h",
         "S107 2:16 / | unclear whether this `/` divides or belongs to a unit"},
        {"x : ft = $5 /h", "S107 2:13 / | unclear whether this `/` divides or belongs to a unit"},
        {"x : ft = 8 ac^x", "S107 2:15 x | the power of a unit must be a whole number"},
        {"x : ft = 8 $/(ac .ft)",
         "S107 2:18 . | a unit with parentheses must be written without spaces"},
        {"x : $/(a/(b)) = 3",
         "S107 2:9 / | a unit with parentheses must be written without spaces"},
        {"x : ac / h = 3",
         "S107 2:8 / | a unit is written without spaces, with `.` to multiply and `/` to divide"},
        {"x : ft = $5 ac", "S110 2:13 ac | an operator is missing before `ac`"},
    });
}

TEST_CASE("a number is written as people write it") {
    check_said({
        {"x : 1 = 1,85",
         "S106 2:9 1,85 | the commas in `1,85` do not group three digits | group digits by threes"},
        {"x : 1 = 1,8500", "S106 2:9 1,8500 | the commas in `1,8500` do not group three digits | "
                           "group digits by threes"},
        {"x : 1 = 1850,000", "S106 2:9 1850,000 | the commas in `1850,000` do not group three "
                             "digits | group digits by threes"},
        {"x : 1 = 0,850", "S106 2:9 0,850 | the commas in `0,850` do not group three digits | "
                          "group digits by threes"},
        {"x : 1 = 1,850,00", "S106 2:9 1,850,00 | the commas in `1,850,00` do not group three "
                             "digits | group digits by threes"},
        {"x : 1 = f(1,2)",
         "S106 2:11 1,2 | the commas in `1,2` do not group three digits | group digits by threes"},
        {"x : 1 = $1,85/gal", "S106 2:10 1,85 | the commas in `1,85` do not group three digits | "
                              "group digits by threes"},
        {"x : 1 = .5",
         "S106 2:9 . | a number cannot start with a decimal point | no digit before it"},
        {"x : 1 = 5.", "S106 2:10 . | a number cannot end with a decimal point | no digit follows"},
        {"x : 1 = 1.2.3", "S106 2:12 . | a number has two decimal points | the second point"},
        {"x : 1 = 1e999", "S106 2:9 1e999 | the number is too large or too small | "
                          "outside 1e-308 to 1e308"},
        {"x : 1 = 1, 850", "S110 2:10 , | `,` does not belong here"},
        {"unit a = 1,1 gal",
         "S106 2:10 1,1 | the commas in `1,1` do not group three digits | group digits by threes"},
        {"table t (a : ft) : 1\n  1 2\n  1,2 3",
         "S106 4:3 1,2 | the commas in `1,2` do not group three digits | group digits by threes"},
    });
}

TEST_CASE("a word of the notation is no name, and yes and no are choices") {
    check_said({
        {"given price = 4", "S108 2:7 price | `price` is a reserved word and cannot be a name"},
        {"price : $ = 4", "S108 2:1 price | `price` is a reserved word and cannot be a name"},
        {"x : 1 = cost * 3", "S108 2:9 cost | `cost` is a reserved word and cannot be a name"},
        {"x : 1 = 3 * sum", "S108 2:13 sum | `sum` is a reserved word and cannot be a name"},
        {"given a = fine | over",
         "S108 2:18 over | `over` is a reserved word and cannot be a name"},
        {"x : 1 = a is then", "S108 2:14 then | `then` is a reserved word and cannot be a name"},
        {"noun job", "S108 2:6 job | `job` is a reserved word and cannot be a name"},
        {"define min (a : ft, of : ft) : ft = a",
         "S108 2:21 of | `of` is a reserved word and cannot be a name"},
        {"given yes = 4", "S108 2:7 yes | `yes` is a reserved word and cannot be a name"},
        {"given a.b = 4", "S100 2:7 a.b | a new name cannot have a dot: `a.b`"},
        {"given crossed = no | yes\ncaution when crossed is yes  \"two ways\"", ""},
        {"margin : % = 3 %\nlimit : ft = 4 ft\nbelow : ft = limit",
         ""}, // words of one place are names elsewhere
    });
}

TEST_CASE("when needs then and otherwise") {
    check_said({
        {"x : 1 = when a otherwise b",
         "S111 2:14 a | `when` has no `then` | `then` is missing after this"},
        {"x : 1 = when a then b",
         "S111 2:21 b | `when` has no `otherwise` | `otherwise` is missing after this"},
        {"x : 1 = when a then b when c then d",
         "S111 2:35 d | `when` has no `otherwise` | `otherwise` is missing after this"},
        {"x : 1 = when a < b < c then d otherwise e", "S110 2:20 < | `<` does not belong here"},
    });
}

TEST_CASE("what is left over is told by what it looks like") {
    check_said({
        {"x : 1 = a b", "S110 2:11 b | an operator is missing before `b`"},
        {"x : 1 = 2 (a)", "S110 2:11 ( | an operator is missing before `(`"},
        {"x : 1 = (a)(b)", "S110 2:12 ( | an operator is missing before `(`"},
        {"x : 1 = a < b < c", "S110 2:15 < | `<` does not belong here"},
        {"require a = b \"c\"", "S110 2:11 = | `=` does not belong here"},
        {"set_up : 1 = 3 within 2 .. 4", "S110 2:16 within | `within` does not belong here"},
        {"given a = b becuase \"c\"",
         "S110 2:13 becuase | an operator is missing before `becuase`"},
        {"table t (a : ft) : 1\n  1 2\n  2 3 4", "S110 4:7 4 | `4` does not belong here"},
        {"table t (a : ft) : 1\n  1 2\n  2 ft 3",
         "S100 4:5 ft | a table row is two numbers | not a number"},
        {"noun tree trees", "S110 2:11 trees | an operator is missing before `trees`"},
        {"x : 1 = 3\n  y : 1 = 4",
         "S115 3:3 y | `y` is indented deeper than the line above, so it continues that line"},
    });
}

} // namespace errors_test
