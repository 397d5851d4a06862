// The canonical layout.
#include <doctest/doctest.h>

#include "lang/syntax/tidy.h"

#include "tests/support/parse_text.h"

namespace tidy_test {

using namespace acre;

namespace {

std::string tidied(std::string text, lang::FileKind kind = lang::FileKind::Model) {
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const lang::FileId file = sources.add("t", std::move(text));
    const std::optional<std::string> result = lang::tidy(sources, file, kind, diagnostics);
    return result ? *result : lang::render(diagnostics, sources);
}

struct Case {
    const char* before;
    const char* after;
};

// Each text stands below `model "m"`. Tidying what is tidy changes nothing.
void check(std::initializer_list<Case> cases) {
    for (const Case& c : cases) {
        CAPTURE(c.before);
        const std::string after = "model \"m\"\n" + std::string(c.after);
        CHECK(tidied("model \"m\"\n" + std::string(c.before)) == after);
        CHECK(tidied(after) == after);
    }
}

} // namespace

TEST_CASE("one blank around operators, none inside brackets and units") {
    check({
        {"x:1=a+b*-c", "x : 1 = a + b * -c\n"},
        {"x  :  1  =  ( a-b )/ c^2", "x : 1 = (a - b) / c ^ 2\n"},
        {"x : 1 = a^-2-- b", "x : 1 = a ^ -2 - -b\n"},
        {"x : 1 = min ( a ,b,  c )", "x : 1 = min(a, b, c)\n"},
        {"x : 1 = f(a,2)", "x : 1 = f(a, 2)\n"},
        {"x : 1 = not(a<=b)and c==d or e!=f", "x : 1 = not (a <= b) and c == d or e != f\n"},
        {"x : 1 = when(a)then(b)otherwise(c)", "x : 1 = when (a) then (b) otherwise (c)\n"},
        {"x : 1 = sum( a )", "x : 1 = sum(a)\n"},
        {"x : 1 = 80ac+18%*$4.35/gal", "x : 1 = 80 ac + 18 % * $4.35/gal\n"},
        {"x : $/(ac.ft) = 3   kg.m^2/s^2 /  $5 * 3 1/h",
         "x : $/(ac.ft) = 3 kg.m^2/s^2 / $5 * 3 1/h\n"},
        {"x : 1 = 1,850,000 + 2.50 + 2.5e-3",
         "x : 1 = 1,850,000 + 2.50 + 2.5e-3\n"}, // the author's digits
        {"x : 1 = area/width", "x : 1 = area / width\n"},
        {"x : 1 = a.b  *  c.d.e", "x : 1 = a.b * c.d.e\n"},
        {"given a=1 within 0..-2 swing pert(b)..c",
         "given a = 1  within 0 .. -2  swing pert (b) .. c\n"},
        {"x:$ = -$3   may  be   negative", "x : $ = -$3  may be negative\n"},
        {"cost f:$=-$3 over 1 \"t\" may be negative because \"b\"",
         "cost f : $ = -$3 over 1  \"t\"  may be negative  because \"b\"\n"},
        {"given a=1 choose b..c within 0..4", "given a = 1  choose b .. c  within 0 .. 4\n"},
        {"given a=b swing 80 %..120 %   of   it because \"c\"",
         "given a = b  swing 80 % .. 120 % of it  because \"c\"\n"},
        {"require a<b   \"no\"   costs c", "require a < b  \"no\" costs c\n"},
        {"given a = x|y   |z", "given a = x | y | z\n"},
    });
}

TEST_CASE("two blanks a level and two before a clause") {
    check({
        {"part   \"A\"  each   block\n      x : 1 = a", "part \"A\" each block\n  x : 1 = a\n"},
        {"part \"A\"\n\tx : 1 = a\n\ttable t (a:ft):step 1 below hold\n\t\t1 2\n\t\t3 4",
         "part \"A\"\n  x : 1 = a\n  table t (a : ft) : step 1  below hold\n    1  2\n    3  4\n"},
        {"given a = 1 \"l\" because \"b\" within 0 .. 2",
         "given a = 1  \"l\"  because \"b\"  within 0 .. 2\n"},
        {"use \"c\" as d with e=3,f = 4", "use \"c\" as d with e = 3, f = 4\n"},
        {"require a<b \"c\"\ncaution \"d\"\ncaution when e is not f \"g\"",
         "require a < b  \"c\"\ncaution \"d\"\ncaution when e is not f  \"g\"\n"},
        {"correlate a,b -60%", "correlate a, b -60 %\n"},
        {"show  a,b.c ,d", "show a, b.c, d\n"},
        {"count a  of b,c", "count a of b, c\n"},
        {"fleet  costs a*b over   c", "fleet costs a * b over c\n"},
        {"define f(a:ft)each  layer(b:ft,c:psf):lbf native",
         "define f (a : ft) each layer (b : ft, c : psf) : lbf native\n"},
        {"x : lbf = f(a,each  layer(1 ft,2 psf),(3 ft,4 psf))",
         "x : lbf = f(a, each layer (1 ft, 2 psf), (3 ft, 4 psf))\n"},
        {"event e=1 over a costs $3 \"t\"", "event e = 1 over a costs $3  \"t\"\n"},
        {"define f(a:ft,b:mi/h):ft=a\n known read\n limit a -1 ft..2 ft \"w\"\n example f(1 ft,2 "
         "mi/h)=1 ft within 0.1 ft\n c:ft=a-1 ft",
         "define f (a : ft, b : mi/h) : ft = a\n  known read\n  limit a -1 ft .. 2 ft  \"w\"\n"
         "  example f(1 ft, 2 mi/h) = 1 ft within 0.1 ft\n  c : ft = a - 1 ft\n"},
    });
}

TEST_CASE("columns of neighbors are lined up") {
    check({
        {"given a = 1\ngiven long_name = 2\ngiven b : ft = 3 ft",
         "given a         = 1\ngiven long_name = 2\ngiven b : ft    = 3 ft\n"},
        {"x : mi = a\nlonger : mi/h = b", "x      : mi   = a\nlonger : mi/h = b\n"},
        {"x : mi = a\n\nlonger : mi/h = b",
         "x : mi = a\n\nlonger : mi/h = b\n"}, // a blank line parts them
        {"x : mi = a\n# c\nlonger : mi/h = b",
         "x : mi = a\n# c\nlonger : mi/h = b\n"}, // so does a comment
        {"x : mi = a\ngiven longer = b",
         "x : mi = a\ngiven longer = b\n"}, // and another kind of statement
        {"x : mi = a\n  + b\nlonger : mi = c", "x      : mi = a\n    + b\nlonger : mi = c\n"},
        {"cost a : $/h = b over c\ncost dd : $/move = e * f over g",
         "cost a  : $/h    = b     over c\ncost dd : $/move = e * f over g\n"},
        {"unit a = 3 ft\nunit bcd = 4 ft", "unit a   = 3 ft\nunit bcd = 4 ft\n"},
        // Over forty columns, and no wider gap.
        {"unit a = 3 ft\nunit abcdefghijklmnopqrstuvwxyz_abcdefghijklmn = 4 ft",
         "unit a                                         = 3 ft\n"
         "unit abcdefghijklmnopqrstuvwxyz_abcdefghijklmn = 4 ft\n"},
        {"unit a = 3 ft\nunit abcdefghijklmnopqrstuvwxyz_abcdefghijklmno = 4 ft",
         "unit a = 3 ft\nunit abcdefghijklmnopqrstuvwxyz_abcdefghijklmno = 4 ft\n"},
        {"table t (a : ft) : 1\n  -1,000.5 -3\n  1 2\n  20 -4",
         "table t (a : ft) : 1\n  -1,000.5  -3\n  1         2\n  20        -4\n"},
    });
    CHECK(tidied("model \"m\"\nprice \"P\" lump\n  margin 3 %\n  at least $5\n  round up to $1") ==
          "model \"m\"\nprice \"P\" lump\n  margin      3 %\n  at least    $5\n  round up to $1\n");
    CHECK(tidied("job \"j\"\nmodel \"m\"\nseason \"s\"\ndate 2027-03-14\nset a=1\nset "
                 "bcd=2\noption \"o\"\n    set a=3",
                 lang::FileKind::Job) ==
          "job \"j\"\nmodel  \"m\"\nseason \"s\"\ndate   2027-03-14\nset a   = 1\nset bcd = "
          "2\noption \"o\"\n  set a = 3\n");
}

TEST_CASE("comments are kept where they belong") {
    check({
        {"x : 1 = a# tail", "x : 1 = a  # tail\n"},
        {"x : 1 = a # one\ny : 1 = a + b     # two",
         "x : 1 = a      # one\ny : 1 = a + b  # two\n"},
        {"part \"A\" # one\n  x : 1 = a + b # two", "part \"A\"  # one\n  x : 1 = a + b  # two\n"},
        {"part \"A\"\n# inner\n  x : 1 = a", "part \"A\"\n  # inner\n  x : 1 = a\n"},
        {"part \"A\"\n  x : 1 = a\n  # of the price\nprice \"P\" lump",
         "part \"A\"\n  x : 1 = a\n# of the price\nprice \"P\" lump\n"},
        {"part \"A\"\n  x : 1 = a\n  # y : 1 = b\n\nprice \"P\" lump",
         "part \"A\"\n  x : 1 = a\n  # y : 1 = b\n\nprice \"P\" lump\n"},
        {"part \"A\"\n  x : 1 = a\n  # the end", "part \"A\"\n  x : 1 = a\n  # the end\n"},
        {"x : 1 = a # first\n  # second\n  + b # third",
         "x : 1 = a  # first\n    # second\n    + b  # third\n"},
        {"# \u00E9t\u00E9   \nx : 1 = a \"\u00E9\" # one\ny : 1 = a \"e\" # two",
         "# \u00E9t\u00E9\nx : 1 = a  \"\u00E9\"  # one\ny : 1 = a  \"e\"  # two\n"},
    });
    CHECK(tidied("# before\n\nmodel \"m\" # what\n") == "# before\n\nmodel \"m\"  # what\n");
}

TEST_CASE("one blank line at most, none at either end, one line end at the end") {
    CHECK(tidied("\n\nmodel \"m\"\n\n\n\nx : 1 = a\n\n\n") == "model \"m\"\n\nx : 1 = a\n");
    CHECK(tidied("model \"m\"") == "model \"m\"\n");
    CHECK(tidied("\xEF\xBB\xBFmodel \"m\"\r\n\r\n\r\nx : 1 = a  # b\r\n") ==
          "model \"m\"\n\nx : 1 = a  # b\n");
    CHECK(tidied("model \"m\"\nx : 1 = a\n\n\n  + b\n") == "model \"m\"\nx : 1 = a\n    + b\n");
}

TEST_CASE("a line is wrapped where its author wrapped it") {
    check({
        {"x : 1 = a\n + b\n        + c", "x : 1 = a\n    + b\n    + c\n"},
        {"part \"A\"\n  x : 1 =\n   a", "part \"A\"\n  x : 1 =\n      a\n"},
        {"define f (a : ft,\n b : ft) : ft =\n   a\n  known read",
         "define f (a : ft,\n    b : ft) : ft =\n    a\n  known read\n"},
    });
}

TEST_CASE("a text with errors is left alone, and they are told") {
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const lang::FileId file = sources.add("t", "model \"m\"\nx : 1 = *\n");
    CHECK(!lang::tidy(sources, file, lang::FileKind::Model, diagnostics));
    REQUIRE(diagnostics.error_count() == 1);
    CHECK(diagnostics.all().front().code == lang::Code::S103);
}

} // namespace tidy_test
