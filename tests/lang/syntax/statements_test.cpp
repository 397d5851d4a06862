// Every kind of statement, and the tree it makes. The first text of each pair is as people write
// it.
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "tests/support/parse_text.h"

namespace statements_test {

using namespace acre;
using tests::parse_text;
using tests::tree_of;

namespace {

struct Case {
    const char* text;
    const char* tree;
};

void check(std::initializer_list<Case> cases) {
    for (const Case& c : cases) {
        CAPTURE(c.text);
        CHECK(tree_of(c.text) == c.tree);
    }
}

} // namespace

TEST_CASE("declarations of a model") {
    check({
        {"use \"crawler\"", "use \"crawler\"\n"},
        {"use \"crawler\" as big", "use \"crawler\" as big\n"},
        {"use \"crawler\" as big with age = 9 yr, crew.size = a + 1",
         "use \"crawler\" as big with age = 9[yr] with crew.size = (a + 1)\n"},
        {"use \"crawler\" with age = 9 yr", "use \"crawler\" with age = 9[yr]\n"},
        {"noun tree", "noun tree\n"},
        {"unit tank = 1,100 gal", "unit tank = 1,100[gal]\n"},
        {"unit load = 2.5e3 lb/trip", "unit load = 2.5e3[lb/trip]\n"},
        {"choice texture = fine | medium | coarse", "choice texture = fine | medium | coarse\n"},
        {"choice crossed = no | yes", "choice crossed = no | yes\n"},
        {"part \"A\"", "part \"A\"\n"},
        {"part \"A\" each block", "part \"A\" each block\n"},
        {"part \"A\" each layer of block", "part \"A\" each layer of block\n"},
        {"list leg", "list leg\n"},
        {"list layer = top \"ground\"", "list layer = top \"ground\"\n"},
        {"list layer = top | pan  \"ground\"", "list layer = top | pan \"ground\"\n"},
        {"list : mi = 3", "list : [mi] = 3\n"}, // a name where no list is meant
        {"show acres, north.depth,prices.least_job", "show acres, north.depth, prices.least_job\n"},
        {"show\n    acres", "show acres\n"},
        {"show : mi = 3", "show : [mi] = 3\n"},
        {"count hours of crawler, acres", "count hours of crawler, acres\n"},
        {"count : 1 = 3\ngiven fleet = 2", "count : [1] = 3\ngiven fleet = 2\n"},
        {"fleet costs fixed + $3/yr over 400 h/yr",
         "fleet costs (fixed + 3[$/yr]) over 400[h/yr]\n"},
    });
}

TEST_CASE("givens take their clauses in any order") {
    check({
        {"given a = 80 ac", "given a = 80[ac]\n"},
        {"given a : h/yr", "given a : [h/yr]\n"},
        {"given a", "given a\n"},
        {"given a : 1 = 3", "given a : [1] = 3\n"},
        {"given a = full | rows | both", "given a = full | rows | both\n"},
        {"given a : texture = fine", "given a : [texture] = fine\n"},
        {"given a : mi/h = min(b, c)  \"speed\"", "given a : [mi/h] = min(b, c) \"speed\"\n"},
        {"given a = 1 \"l\" within 0 .. 2 swing 0.5 .. 1.5 because \"b\"",
         "given a = 1 \"l\" within 0 .. 2 swing 0.5 .. 1.5 because \"b\"\n"},
        {"given a = 1 because \"b\" swing 0.5 .. 1.5 within 0 .. 2 \"l\"",
         "given a = 1 \"l\" within 0 .. 2 swing 0.5 .. 1.5 because \"b\"\n"},
        {"given a = -$1 may be negative \"l\"", "given a = (- 1[$]) \"l\" may be negative\n"},
        {"given a = 1 swing triangular 0 .. 2", "given a = 1 swing triangular 0 .. 2\n"},
        {"given a = 1 swing pert b * 2 .. c", "given a = 1 swing pert (b * 2) .. c\n"},
        {"given a = 1 swing even 0 .. 2", "given a = 1 swing even 0 .. 2\n"},
        {"given a = 1 swing step -5 .. 5", "given a = 1 swing whole (- 5) .. 5\n"},
        {"given a = 1 swing whole 1 .. 5", "given a = 1 swing whole 1 .. 5\n"},
        {"given a = 1 choose b * 2..c \"l\"", "given a = 1 \"l\" choose (b * 2) .. c\n"},
        {"given a = b swing 80 %..120 % of it \"l\"",
         "given a = b \"l\" swing 80[%] .. 120[%] of it\n"},
        {"given a = b swing pert 80 % .. c of it", "given a = b swing pert 80[%] .. c of it\n"},
        {"given a = 1 within 1..5", "given a = 1 within 1 .. 5\n"},
    });
}

TEST_CASE("lines, costs and what is asked of them") {
    check({
        {"x : mi = a / b \"travel\"", "x : [mi] = (a / b) \"travel\"\n"},
        {"x:mi=a/b", "x : [mi] = (a / b)\n"},
        {"x : mi = a - 3 mi may be negative", "x : [mi] = (a - 3[mi]) may be negative\n"},
        {"x : 1 = be - negative may be negative",
         "x : [1] = (be - negative) may be negative\n"}, // these two stay names
        {"cost f : $/h = a over b may be negative because \"c\"",
         "cost f : [$/h] = a over b because \"c\" may be negative\n"},
        {"x : 1 = a because \"b\"", "x : [1] = a because \"b\"\n"},
        {"cost f : $/h = a * b over c \"fuel\"", "cost f : [$/h] = (a * b) over c \"fuel\"\n"},
        {"cost f : $/h = a over b because \"c\"", "cost f : [$/h] = a over b because \"c\"\n"},
        {"event e = 2 1/yr over a costs $300 \"tip\"",
         "event e = 2[1/yr] over a costs 300[$] \"tip\"\n"},
        {"correlate a, b.c 60 %", "correlate a, b.c 60[%]\n"},
        {"correlate a, b -60 %", "correlate a, b (- 60[%])\n"},
        {"require a > b \"no\" costs $300 + c", "require (a > b) \"no\" costs (300[$] + c)\n"},
        {"require a <= 2 * b  \"too wide\"", "require (a <= (2 * b)) \"too wide\"\n"},
        {"require when a then b otherwise c  \"why\"",
         "require (when a then b otherwise c) \"why\"\n"},
        {"caution when a is fine  \"wet\"", "caution when (a is fine) \"wet\"\n"},
        {"caution \"call first\"", "caution \"call first\"\n"},
    });
}

TEST_CASE("prices and their steps") {
    check({
        {"price \"R\" per ac of area\n  overhead 9 %\n  reserve a\n  markup 10 %\n  margin 15 "
         "%\n  at least $6,500\n  round up to "
         "$5/ac\n  round to $1",
         "price \"R\" per [ac] of area\n  overhead 9[%]\n  reserve a\n  markup 10[%]\n  margin "
         "15[%]\n  at least 6500[$]\n"
         "  round up 5[$/ac]\n  round to 1[$]\n"},
        {"price \"M\" lump covers \"Haul\", \"Permits\"",
         "price \"M\" lump covers \"Haul\" covers \"Permits\"\n"},
        {"price \"M\" per $/h of hours + 2", "price \"M\" per [$/h] of (hours + 2)\n"},
        {"price \"M\" per ac of area\n  covers \"Haul\"\n  margin 3 %",
         "price \"M\" per [ac] of area covers \"Haul\"\n  margin 3[%]\n"},
    });
}

TEST_CASE("tables and their ends") {
    check({
        {"table t (a : %) : gal/h \"l\" below hold above error because \"b\"\n  20 8\n  60 21.5",
         "table t (a : [%]) : [gal/h] \"l\" because \"b\" below hold above error\n  20  8\n  60  "
         "21.5\n"},
        {"table t (a : lb) : step $/move\n  0 -1\n  1,000 2",
         "table t (a : [lb]) : step [$/move] below error above error\n  0  (- 1)\n  1000  2\n"},
        {"table t (a : lb) : step\n  0 1\n  1 2",
         "table t (a : [lb]) : [step] below error above error\n  0  1\n  1  2\n"},
        {"table t (a : lb) : 1\n  \"label on its own line\"\n  above hold\n  0 1\n  1 2",
         "table t (a : [lb]) : [1] \"label on its own line\" below error above hold\n  0  1\n  1  "
         "2\n"},
        {"part \"A\"\n  table t (a : lb) : 1\n    0 1\n    1 2\n  x : 1 = t(3 lb)",
         "part \"A\"\n  table t (a : [lb]) : [1] below error above error\n    0  1\n    1  2\n  x "
         ": [1] = t(3[lb])\n"},
    });
}

TEST_CASE("defines with what is known about them") {
    check({
        {"define f (a : ft, kind : texture) : ft = a * 2\n"
         "  source \"s\"\n  source \"t\"\n  known common_practice\n  tested a 1 ft .. 2 ft\n  "
         "limit a 0 ft .. 9 ft \"why\"\n"
         "  example f(1 ft, fine) = 2 ft within 0.1 ft\n  example f(2 ft, fine) = 4 ft\n  note "
         "\"n\"\n  b : ft = a / 2\n",
         "define f (a : [ft], kind : [texture]) : [ft] = (a * 2)\n"
         "  b : [ft] = (a / 2)\n  source \"s\"\n  source \"t\"\n  known common_practice\n  tested "
         "a 1[ft] .. 2[ft]\n"
         "  limit a 0[ft] .. 9[ft] \"why\"\n  example f(1[ft], fine) = 2[ft] within 0.1[ft]\n  "
         "example f(2[ft], fine) = 4[ft]\n  note "
         "\"n\"\n"},
        {"define f () : 1 = 3", "define f () : [1] = 3\n"},
        {"define f (a : ft) each layer (b : ft, c : psf) : lbf native",
         "define f (a : [ft]) each layer (b : [ft], c : [psf]) : [lbf] native\n"},
        {"define f ()\n    each layer (b : ft) : ft = sum(b)",
         "define f () each layer (b : [ft]) : [ft] = sum(b)\n"},
        {"define f (a : ft) : lbf native", "define f (a : [ft]) : [lbf] native\n"},
        {"define f (a : ft) : ft = a\n  limit : ft = a\n  note : ft = a",
         "define f (a : [ft]) : [ft] = a\n  limit : [ft] = a\n  note : [ft] = a\n"},
        // a define may run over several lines before its first inner line
        {"define f (a : ft,\n    b : ft) : ft =\n    a +\n    b\n  known read",
         "define f (a : [ft], b : [ft]) : [ft] = (a + b)\n  known read\n"},
        {"define f (a : ft) : ft = when a > 2 ft then a\n    otherwise 2 ft\n  known ours",
         "define f (a : [ft]) : [ft] = (when (a > 2[ft]) then a otherwise 2[ft])\n  known ours\n"},
    });
}

TEST_CASE("a season and a job") {
    const tests::Parsed season =
        parse_text("season \"2027\"\nset crawler.diesel = $4.35/gal  because \"quote\"\n",
                   lang::FileKind::Season);
    CHECK(season.dump() == "season \"2027\"\nset crawler.diesel = 4.35[$/gal] because \"quote\"\n");
    const tests::Parsed job = parse_text(
        "job \"B\"\nmodel \"deep-rip\"\nseason \"2027\"\nfor \"G\"\ndate 2027-03-14\n"
        "field \"b.geojson\" heading 32 deg\nset area = 152 ac swing 80 %..110 % of it\noption "
        "\"Rows\"\n  set method = "
        "rows\n"
        "block north \"North\"\n  set area = 60 ac\n  field \"n.geojson\"\nblock south\n",
        lang::FileKind::Job);
    CHECK(job.rendered().empty());
    CHECK(job.dump() ==
          "job \"B\"\nmodel \"deep-rip\"\nseason \"2027\"\nfor \"G\"\ndate 2027-03-14\n"
          "field \"b.geojson\" heading 32[deg]\nset area = 152[ac] swing 80[%] .. 110[%] of "
          "it\noption \"Rows\"\n  set method "
          "= rows\n"
          "block north \"North\"\n  set area = 60[ac]\n  field \"n.geojson\"\nblock south\n");
    const tests::Parsed command = parse_text("set area = 3 ac", lang::FileKind::CommandLine);
    CHECK(command.dump() == "command \"\"\nset area = 3[ac]\n");
}

TEST_CASE("a statement's place takes in its inner lines, and knows its part") {
    const tests::Parsed p = parse_text(
        "model \"m\"\npart \"A\"\n  x : 1 = 3  # note\nprice \"P\" lump\n  margin 3 %\n");
    REQUIRE(p.module.statements.size() == 3);
    CHECK(p.text_at(p.module.statements[0].span) == "part \"A\"\n  x : 1 = 3");
    CHECK(p.text_at(p.module.statements[1].span) == "x : 1 = 3");
    CHECK(p.module.statements[1].part == 0);
    CHECK(p.text_at(p.module.statements[2].span) == "price \"P\" lump\n  margin 3 %");
    CHECK(p.module.statements[2].part == lang::ast::none);
    CHECK(p.text_at(p.module.title.span) == "\"m\"");
}

// What is said in one statement is not said in the next, whether the first could be read or not.
TEST_CASE("nothing of a statement stays for the next") {
    const std::vector<std::string> rich = {
        "use \"a\" as b with c = 3, d = -(e)",
        "choice c = x | y",
        "list l = x | y \"l\"",
        "given a = x | y \"l\"",
        "given a : ft = b within 0 .. 2 swing pert 1 .. f(2, 3) of it because \"b\" \"l\"",
        "given a = -$1 choose 0 .. 2 may be negative",
        "x : mi = when a < b then -c otherwise (d) \"l\" because \"b\" may be negative",
        "cost c : $/h = -$3/h over 2 h \"l\" because \"b\" may be negative",
        "event e = 1 over 2 costs $3 \"l\"",
        "require not (a is not b) \"m\" costs $3",
        "caution when a \"m\"",
        "price \"P\" lump covers \"A\", \"B\"\n  round up to $3\n  margin 3 %",
        "price \"P\" per ac of area",
        "table t (a : ft) : step ft \"l\" below hold above hold because \"b\"\n  1 2\n  3 4",
        "define f (a : ft, b : ft) each l (c : ft) : ft native \"l\"\n  known read\n  limit a 1 ft "
        ".. 2 ft \"w\"",
        "define g (a : ft) : ft = a\n  example g(1 ft) = 1 ft within 0.1 ft\n  note \"n\"",
        "count a of n b, c",
        "show a, b",
        "correlate a, b 60 %",
        "fleet costs a over b",
        "part \"A\" each l of m\n  x : 1 = f(a, each l (1, 2), (3, 4))",
    };
    const std::vector<std::string> plain = {"use \"a\"",
                                            "given g",
                                            "given g = 3",
                                            "y : 1 = -a + f(b) * (when c then d otherwise e)",
                                            "cost k : $ = $3 over 1",
                                            "table t (a : ft) : 1\n  1 2\n  3 4",
                                            "define h (a : ft) : ft = a\n  limit a 1 ft .. 2 ft",
                                            "price \"Q\" lump\n  round to $3",
                                            "count a",
                                            "list m",
                                            "caution \"m\"",
                                            "part \"B\""};
    for (const std::string& first : rich)
        for (const std::string& next : plain) {
            CAPTURE(first);
            CAPTURE(next);
            CHECK(tree_of(first + "\n" + next) == tree_of(first) + tree_of(next));
        }
    for (const char* broken :
         {"z : 1 = (a + f(b, when c then -d * * 2", "given a = x | y within 0 .. 2 swing",
          "z : 1 = f(a, each l (1, 2), (3,", "table t (a : ft, b : ft) : 1",
          "use \"a\" as b with c =", "z : 1 = not (when a then b", "count a of b c d",
          "z : 1 = 3 $/h / - \"l\" because \"b\" 4"})
        for (const std::string& next : plain) {
            CAPTURE(std::string(broken));
            CAPTURE(next);
            const tests::Parsed p =
                parse_text("model \"m\"\n" + std::string(broken) + "\n" + next + "\n");
            CHECK(p.diagnostics.error_count() == 1);
            CHECK(p.dump() == "model \"m\"\n" + tree_of(next));
        }
}

} // namespace statements_test
