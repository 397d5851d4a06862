#include <doctest/doctest.h>

#include <string>

#include "tests/support/resolve_text.h"

namespace resolve_functions_test {

using namespace acre;
using tests::resolve_ok;
using tests::resolve_text;
using tests::written;

TEST_CASE("a function sees its parameters and its own lines, in any order") {
    const auto out = resolve_ok(R"(library "Lib"
choice texture = fine | coarse
define pass_time (run : ft, speed : mi/h, turn : min) : min = moving + turn
  moving : min = distance / speed
  distance : ft = run
  source "a source"
  source "another"
  note "a note"
  known read
  tested run 1 ft .. 10 ft
  limit speed 0.1 mi/h .. 2 * 5 mi/h  "nothing is faster"
  example pass_time(528 ft, 1 mi/h, 1 min) = 7 min within 0.01 min
define draft (soil : texture, depth : ft) : lbf = when soil is fine then 3 lbf otherwise 2 lbf
define tough () : texture = fine
define search (depth : ft) : lbf native
)");
    REQUIRE(out.sheet.functions.size() == 4);
    const lang::Function& f = out.sheet.functions[0];
    CHECK(written(out.sheet, f.value) == "(local0 + parameter2)");
    CHECK(written(out.sheet, f.locals[0].value) == "(local1 / parameter1)");
    CHECK(written(out.sheet, f.locals[1].value) == "parameter0");
    CHECK(f.parameter_texts == std::vector<std::string>{"ft", "mi/h", "min"});
    CHECK(f.sources == std::vector<std::string>{"a source", "another"});
    CHECK(f.notes == std::vector<std::string>{"a note"});
    CHECK(f.known == lang::ast::Known::Read);
    REQUIRE(f.tested.size() == 1);
    CHECK(f.tested[0].parameter == 0);
    REQUIRE(f.limits.size() == 1);
    CHECK(f.limits[0].parameter == 1);
    CHECK(f.limits[0].reason == "nothing is faster");
    CHECK(written(out.sheet, f.limits[0].high) == "(2 * 5)");
    REQUIRE(f.examples.size() == 1);
    CHECK(written(out.sheet, f.examples[0].call) == "pass_time(528, 1, 1)");
    CHECK(written(out.sheet, f.examples[0].expected) == "7");
    CHECK(written(out.sheet, f.examples[0].tolerance) == "0.01");
    CHECK(written(out.sheet, out.sheet.functions[1].value) == "when((parameter0 == fine), 3, 2)");
    CHECK(written(out.sheet, out.sheet.functions[2].value) == "fine");
    CHECK(out.sheet.functions[3].native);
    CHECK(out.sheet.functions[3].value == lang::none);
}

TEST_CASE("a function that reaches for anything else is told what it may see") {
    struct Row {
        std::string define, codes, title;
    };
    const std::vector<Row> rows = {
        {"define f (x : ft) : ft = x + area", "N201",
         "`area` is not a parameter of `f`, nor a line inside it"},
        {"define f (width : ft) : ft = widht", "N201",
         "`widht` is not a parameter of `f`, nor a line inside it"},
        {"define f (x : ft) : ft = x\n  tested y 1 ft .. 2 ft", "N201",
         "`y` is not a parameter of `f`"},
        {"define f (x : ft) : ft = x\n  example f(area) = 2 ft", "N201",
         "`area` cannot be used here"},
        {"define f (x : ft) : ft = sum(x)", "N213",
         "`sum` takes the name of a line of an `each` part"},
        {"define f (x : ft) : ft = f", "N211", "`f` is a function, not a value"},
        {"define f (x : nothing) : ft = 3 ft", "N203", "no unit named `nothing`"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.define);
        const auto out = resolve_text("model \"m\"\ngiven area = 3 ac\n" + row.define + "\n");
        REQUIRE_MESSAGE(out.codes() == row.codes, out.rendered());
        CHECK(out.diagnostics.all().front().title == row.title);
    }
}

TEST_CASE("an argument of a choice names its options") {
    const auto out = resolve_ok(R"(model "m"
choice texture = fine | coarse
define draft (soil : texture) : lbf = when soil is fine then 3 lbf otherwise 2 lbf
x : lbf = draft(coarse)
)");
    CHECK(out.formula("x") == "draft(coarse)");
    CHECK(resolve_text("model \"m\"\nchoice t = fine | coarse\ndefine f (s : t) : ft = 1 ft\nx : "
                       "ft = f(fien)\n")
              .codes() == "N204");
}

TEST_CASE("a table is rows of plain numbers in the units of its head") {
    const auto out = resolve_ok(R"(model "m"
table burn (load : %) : gal/h  "burn by load"  below hold  above error
  20   8
  60   21.5
  100  38
table fee (w : lb) : step $/h
  -1  2
  0   1,500
)");
    const lang::Table& burn = out.sheet.tables[0];
    CHECK(burn.x == std::vector<double>{20, 60, 100});
    CHECK(burn.y == std::vector<double>{8, 21.5, 38});
    CHECK(burn.hold_below);
    CHECK_FALSE(burn.hold_above);
    CHECK_FALSE(burn.staircase);
    CHECK(burn.label == "burn by load");
    CHECK(burn.parameter_name == "load");
    CHECK(burn.parameter_text == "%");
    CHECK(burn.result_text == "gal/h");
    CHECK(out.sheet.tables[1].staircase);
    CHECK(out.sheet.tables[1].x == std::vector<double>{-1, 0});
    CHECK(out.sheet.tables[1].y == std::vector<double>{2, 1500});
    CHECK(resolve_text("model \"m\"\nchoice c = a | b\ntable t (x : c) : ft\n  1 2\n  2 3\n")
              .codes() == "U309");
}

TEST_CASE("units of one's own may rest on units written further down") {
    const auto out = resolve_ok(R"(model "m"
unit load = 4 bin
unit bin = 20 sack
unit sack = 50 lb
given x = 1 load
)");
    // 4 × 20 × 50 lb
    CHECK(lang::conversion(out.line("x").type.unit, *out.sheet.units.find("lb")).apply(1) == 4000);
    struct Row {
        std::string units, codes, title;
    };
    const std::vector<Row> rows = {
        {"unit a = 2 b\nunit b = 2 a\n", "N203 N203", "the unit `a` is defined by itself"},
        {"unit a = 2 a\n", "N203", "the unit `a` is defined by itself"},
        {"unit a = 2 b\nunit b = 2 c\nx : a = 3 a\n", "N203",
         "no unit named `c`"}, // told once, not again by all who rest on it
    };
    for (const Row& row : rows) {
        CAPTURE(row.units);
        const auto bad = resolve_text("model \"m\"\n" + row.units);
        REQUIRE_MESSAGE(bad.codes() == row.codes, bad.rendered());
        CHECK(bad.diagnostics.all()[0].title == row.title);
    }
    CHECK(resolve_text("model \"m\"\nunit a = 0 ft\nx : a = 3 a\n").codes() == "S106");
}

} // namespace resolve_functions_test
