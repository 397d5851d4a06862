// What is said about a statement or a clause that cannot be read, or is in the wrong place.
#include <doctest/doctest.h>

#include <string>

#include "tests/support/syntax_cases.h"

namespace statement_errors_test {

using namespace acre;
using tests::all_errors;
using tests::check_said;
using tests::parse_text;

TEST_CASE("a line that is no statement is told what it may have meant") {
    check_said({
        {"foo bar", "S100 2:1 foo | a statement cannot start with `foo`"},
        {"12", "S100 2:1 12 | a statement cannot start with `12`"},
        {"prise \"x\" lump", "S100 2:1 prise | a statement cannot start with `prise`"},
        {"x : 1 = 3 & 4", "S100 2:11 & | unknown sign `&`"},
        {"x : 1 = \u201Ca\u201D", "S100 2:9 \u201Ca\u201D | unknown sign `\u201C`"},
        {"x : 1 = 3 \u00D7 4", "S100 2:11 \u00D7 | unknown sign `\u00D7`"},
        {"x : 1 =\u00A03", "S100 2:8 \u00A0 | unusual space character"},
        {"= 3", "S100 2:1 = | a statement cannot start with `=`"},
    });
    const tests::Parsed p = parse_text("model \"m\"\nprise \"x\" lump\n");
    REQUIRE(p.diagnostics.all().front().helps.size() == 1);
    CHECK(p.diagnostics.all().front().helps.front().edit->replacement == "price");
}

TEST_CASE("a clause is given once") {
    check_said({
        {"given a = 3 \"b\" \"c\"", "S116 2:17 \"c\" | the label is given twice | again"},
        {"given a = 3 because \"b\" because \"c\"",
         "S116 2:33 \"c\" | `because` is given twice | again"},
        {"given a = 3 within 1 .. 2 within 3 .. 4",
         "S116 2:34 3 .. 4 | `within` is given twice | again"},
        {"given a = 3 swing 1 .. 2 swing 3 .. 4",
         "S116 2:32 3 .. 4 | `swing` is given twice | again"},
        {"table t (a : ft) : 1 below hold below error\n  1 2\n  2 3",
         "S116 2:33 below error | `below` is given twice | again"},
        {"define f (a : ft) : ft = a\n  known read\n  known ours",
         "S116 4:3 known ours | `known` is given twice | again"},
        {"define f (a : ft) : ft = a\n  limit a 1 ft .. 2 ft\n  limit a 1 ft .. 3 ft",
         "S116 4:9 a | `limit a` is given twice | again"},
    });
    const tests::Parsed p = parse_text("job \"j\"\nmodel \"m\"\ndate 2027-03-14\ndate 2027-03-15\n",
                                       lang::FileKind::Job);
    CHECK(all_errors(p) == "S116 4:1 date 2027-03-15 | `date` is given twice | again");
}

TEST_CASE("a table has two rows at least and rises") {
    check_said({
        {"table t (a : ft) : 1",
         "S112 2:1 table t (a : ft) : 1 | a table needs at least two rows; this one has none"},
        {"table t (a : ft) : 1\n  1 2\nnoun tree",
         "S112 2:1 table t (a : ft) : 1 | a table needs at least two rows; this one has one"},
        {"table t (a : ft) : 1\n  1 2\n  3 2\n  2 2",
         "S113 5:3 2 | the first column of a table must rise | must be larger"},
        {"table t (a : ft) : 1\n  1 2\n  1 3",
         "S113 4:3 1 | two rows of a table start with the same number | must be larger"},
        {"table t (a : ft) : 1\n  -1 2\n  -2 3",
         "S113 4:3 -2 | the first column of a table must rise | must be larger"},
        {"table t (a : ft) : 1\n  -2 -3\n  -1 3.5\n  1,000 0", ""},
    });
}

TEST_CASE("a statement stands in its place") {
    check_said({
        {"part \"A\"\n  part \"B\"\n    x : 1 = 3",
         "S104 3:3 part | `part` is not allowed in a part"},
        {"part \"A\"\n  define f (a : ft) : ft = a\n    known read",
         "S104 3:3 define | `define` is not allowed in a part"},
        {"price \"A\" lump\n  given a = 3", "S104 3:3 given | `given` is not allowed in a price"},
        {"price \"A\" lump\n  x : 1 = 3",
         "S100 3:3 x | a statement in a price cannot start with `x`"},
        {"set a = 3", "S104 2:1 set | `set` is not allowed in a model"},
        {"model \"again\"", "S104 2:1 model | `model` is not allowed in a model"},
        {"library \"again\"", "S104 2:1 library | `library` is not allowed in a model"},
        {"known read", "S104 2:1 known | `known` is not allowed in a model"},
        {"overhead 3 %", "S104 2:1 overhead | `overhead` is not allowed in a model"},
        {"option \"A\"\n  set a = 3", "S104 2:1 option | `option` is not allowed in a model"},
    });
    CHECK(all_errors(parse_text("library \"l\"\ngiven a = 3\n")) ==
          "S104 2:1 given | `given` is not allowed in a library");
    CHECK(all_errors(parse_text("library \"l\"\nx : 1 = 3\n")) ==
          "S100 2:1 x | a statement in a library cannot start with `x`");
    CHECK(all_errors(parse_text("season \"s\"\nprice \"A\" lump\n  margin 3 %\n",
                                lang::FileKind::Season)) ==
          "S104 2:1 price | `price` is not allowed in a season");
    CHECK(all_errors(parse_text("job \"j\"\nuse \"a\"\n", lang::FileKind::Job)) ==
          "S104 2:1 use | `use` is not allowed in a job");
    CHECK(all_errors(parse_text("option \"A\"\n", lang::FileKind::CommandLine)) ==
          "S104 1:1 option | `option` is not allowed in `--set`");
}

TEST_CASE("a file says first what it is") {
    CHECK(all_errors(parse_text("")) == "S114 1:1  | the file has no statement; it must start with "
                                        "`model \"NAME\"` or `library \"NAME\"`");
    CHECK(all_errors(parse_text("\n# only a comment\n")) ==
          "S114 1:1  | the file has no statement; it must start with `model \"NAME\"` or `library "
          "\"NAME\"`");
    CHECK(all_errors(parse_text("x : 1 = 3\n")) ==
          "S114 1:1 x : 1 = 3 | the file must start with `model \"NAME\"` or `library \"NAME\"`");
    CHECK(all_errors(parse_text("job \"j\"\nmodel \"m\"\nset a = 3\n")) ==
          "S114 1:1 job \"j\" | the file must start with `model \"NAME\"` or `library "
          "\"NAME\"`"); // one error, not one a line
    CHECK(all_errors(parse_text("model \"m\"\n", lang::FileKind::Season)) ==
          "S114 1:1 model \"m\" | the file must start with `season \"NAME\"`");
    CHECK(all_errors(parse_text("set a = 3\n", lang::FileKind::Job)) ==
          "S114 1:1 set a = 3 | the file must start with `job \"NAME\"`");
    CHECK(all_errors(parse_text("", lang::FileKind::CommandLine)).empty());
    CHECK(parse_text("library \"l\"\n").module.kind == lang::FileKind::Library);
}

TEST_CASE("a date is in the calendar") {
    const auto date = [](const char* text) {
        return all_errors(
            parse_text("job \"j\"\ndate " + std::string(text) + "\n", lang::FileKind::Job));
    };
    CHECK(date("2027-03-14").empty());
    CHECK(date("2028-02-29").empty()); // a leap year
    CHECK(date("2000-02-29").empty()); // divisible by 400
    CHECK(date("2027-02-29") ==
          "S117 2:6 2027-02-29 | February 2027 has 28 days, not 29 | no such date");
    CHECK(date("1900-02-29") ==
          "S117 2:6 1900-02-29 | February 1900 has 28 days, not 29 | no such date");
    CHECK(date("2027-04-31") ==
          "S117 2:6 2027-04-31 | April 2027 has 30 days, not 31 | no such date");
    CHECK(date("2027-13-01") == "S117 2:6 2027-13-01 | there is no month 13 | no such date");
    CHECK(date("2027-01-00") ==
          "S117 2:6 2027-01-00 | January 2027 has 31 days, not 0 | no such date");
    CHECK(date("14 March 2027") == "S117 2:6 14 March 2027 | a date is written year-month-day");
    CHECK(date("2027-3-14") == "S117 2:6 2027-3-14 | a date is written year-month-day");
    CHECK(date("") == "S117 2:1 date | a date is written year-month-day");
}

TEST_CASE("one bad line costs one line") {
    const tests::Parsed p = parse_text("model \"m\"\n"
                                       "given a = 3 *\n"
                                       "part \"A\"\n"
                                       "  b : 1 = (a\n"
                                       "  c : 1 = a + 1\n"
                                       "price lump\n"
                                       "  margin\n"
                                       "noun tree\n");
    CHECK(all_errors(p) == "S103 2:13 * | a value is missing after `*` | nothing to multiply by\n"
                           "S101 4:11 ( | a parenthesis is not closed | opened here\n"
                           "S103 6:1 price | text in quotes is missing after `price`\n"
                           "S103 7:3 margin | a value is missing after `margin`");
    CHECK(p.dump() == "model \"m\"\npart \"A\"\n  c : [1] = (a + 1)\nnoun tree\n");
}

} // namespace statement_errors_test
