#include <doctest/doctest.h>

#include <string>

#include "tests/support/resolve_text.h"

namespace resolve_instances_test {

using namespace acre;
using tests::Files;
using tests::resolve_ok;
using tests::resolve_text;

namespace {

const Files files = {
    {"season-prices.rate",
     "model \"Season prices\"\ngiven diesel = $4.20/gal\ngiven wage = $30/h\n"},
    {"crawler.rate", "model \"Crawler\"\nuse \"season-prices\" as p\nnoun track\ngiven age = 3 "
                     "yr\ngiven burning = 20 gal/h\n"
                     "per_hour : $/h = burning * p.diesel + factor(age) * $1/h\n"
                     "define factor (age : yr) : 1 = age / (1 yr)\n"},
    {"haul.rate", "model \"Haul\"\nuse \"crawler\" as truck with age = trucks_age\nuse "
                  "\"season-prices\"\ngiven trucks_age = 2 yr\n"
                  "part \"Road\"\n  cost driver : $/h = season_prices.wage over 3 h\n"},
};

std::string lines_of(const lang::Sheet& sheet) {
    std::string out;
    for (const lang::Line& line : sheet.lines)
        if (line.role != lang::Role::Total)
            out += (out.empty() ? "" : " ") + line.name;
    return out;
}

} // namespace

TEST_CASE("a model used plainly is one shared instance named after its file, whoever uses it") {
    const auto out = resolve_ok("model \"m\"\nuse \"crawler\" as big\nuse \"season-prices\" as "
                                "money\nx : $/h = big.per_hour\n"
                                "y : $/gal = money.diesel\nz : $/gal = big.p.diesel\n",
                                {files});
    CHECK(lines_of(out.sheet) == "x y z crawler.age crawler.burning crawler.per_hour "
                                 "season_prices.diesel season_prices.wage");
    CHECK(out.formula("x") == "crawler.per_hour");
    CHECK(out.formula("y") == "season_prices.diesel");
    CHECK(out.formula("z") == "season_prices.diesel");
    CHECK(out.formula("crawler.per_hour") ==
          "((crawler.burning * season_prices.diesel) + (factor(crawler.age) * 1))");
}

TEST_CASE("a use with bindings is an instance of its own, named below the one that made it") {
    const auto out =
        resolve_ok("model \"m\"\nuse \"haul\"\nuse \"crawler\" as spare with age = 9 yr, burning = "
                   "old_burning\n"
                   "given old_burning = 25 gal/h\nx : $/h = spare.per_hour + haul.truck.per_hour\n",
                   {files});
    CHECK(out.formula("x") == "(spare.per_hour + haul.truck.per_hour)");
    CHECK(out.formula("spare.age") == "9");
    CHECK(out.formula("spare.burning") == "old_burning");
    CHECK(out.formula("haul.truck.age") ==
          "haul.trucks_age"); // a binding is read where it is written
    CHECK(out.formula("haul.truck.burning") == "20");
    const lang::Given& age = out.given("spare.age");
    REQUIRE(age.settings.size() == 2);
    CHECK(age.settings[0].layer == lang::Layer::Model);
    CHECK(age.settings[1].layer == lang::Layer::Binding);
    CHECK(out.sources->text(age.settings[1].span) == "age = 9 yr");
}

TEST_CASE("functions, choices, nouns and units of used models come along under their own names") {
    const Files lib = {
        {"lib.rate", "library \"Lib\"\nnoun move\nunit bin = 4 ft\nchoice texture = fine | coarse\n"
                     "define f (x : bin) : ft = x\ntable t (x : ft) : ft\n  1 2\n  2 3\n"},
        {"middle.rate", "model \"Middle\"\nuse \"lib\"\ngiven a = 3 move\n"}};
    const auto out = resolve_ok("model \"m\"\nuse \"middle\"\ngiven soil : texture = coarse\ngiven "
                                "n = 2 move\nx : ft = f(3 bin) + t(1 ft)\n"
                                "y : 1 = when soil is fine then 1 otherwise 2\n",
                                {lib});
    CHECK(out.formula("x") == "(f(3) + t(1))");
}

TEST_CASE("the same definition in two used models is one; a different one is told") {
    struct Row {
        std::string a, b, codes;
    };
    const std::vector<Row> rows = {
        {"define f (x : ft) : ft = x", "define f (x : ft) : ft  =  x", ""},
        {"define f (x : ft) : ft = x", "define f (x : ft) : ft = 2 * x", "N210"},
        {"table f (x : ft) : ft\n  1 2\n  2 3", "table f (x : ft) : ft\n  1 2\n  2 4", "N210"},
        {"choice c = a | b", "choice c = a | b", ""},
        {"choice c = a | b", "choice c = b | a", "N210"},
        {"noun move", "noun move", ""},
        {"unit bin = 4 ft", "unit bin = 48 in", ""},
        {"unit bin = 4 ft", "unit bin = 5 ft", "N210"},
        {"noun bin", "unit bin = 5 ft", "N210"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.a);
        CAPTURE(row.b);
        const Files both = {{"a.rate", "model \"A\"\n" + row.a + "\n"},
                            {"b.rate", "model \"B\"\n" + row.b + "\n"}};
        CHECK(resolve_text("model \"m\"\nuse \"a\"\nuse \"b\"\n", {both}).codes() == row.codes);
    }
}

TEST_CASE("a function that a model does not use is out of its sight, and the message says how to "
          "see it") {
    const Files two = {{"a.rate", "model \"A\"\nx : ft = f(1 ft)\n"},
                       {"lib.rate", "library \"L\"\ndefine f (x : ft) : ft = x\n"}};
    const auto out = resolve_text("model \"m\"\nuse \"a\"\nuse \"lib\"\ny : ft = f(2 ft)\n", {two});
    REQUIRE(out.codes() == "N205");
    CHECK(out.diagnostics.all()[0].helps[0].text ==
          "use the model that defines it: write  use \"lib\"");
}

TEST_CASE("names of used models that do not exist are told by their near ones") {
    struct Row {
        std::string formula, title, help;
    };
    const std::vector<Row> rows = {
        {"c.agee", "`c` has no line or given named `agee`",
         "did you mean `c.age` (crawler.rate, line 4)?"},
        {"d.age", "no used model is called `d` here", "to use a model, write  use \"d\""},
        {"crawlr.age", "no used model is called `crawlr` here", "did you mean `crawler`?"},
        {"burning", "no line or given named `burning`",
         "did you mean `c.burning` (crawler.rate, line 5)?"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.formula);
        const auto out = resolve_text(
            "model \"m\"\nuse \"crawler\" as c\nuse \"haul\" as crawler\nx : yr = " + row.formula +
                "\n",
            {files});
        REQUIRE_MESSAGE(out.codes() == "N201", out.rendered());
        CHECK(out.diagnostics.all()[0].title == row.title);
        REQUIRE(!out.diagnostics.all()[0].helps.empty());
        CHECK(out.diagnostics.all()[0].helps[0].text == row.help);
    }
}

TEST_CASE("a binding goes to a given of the model used") {
    struct Row {
        std::string with, codes;
    };
    const std::vector<Row> rows = {
        {"age = 9 yr", ""},          {"agee = 9 yr", "I601"},
        {"per_hour = $3/h", "I606"}, {"age = 9 yr, age = 8 yr", "I604"},
        {"age = nothing", "N201"},   {"p.diesel = $3/gal", "I601"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.with);
        const auto out =
            resolve_text("model \"m\"\nuse \"crawler\" as c with " + row.with + "\n", {files});
        CHECK_MESSAGE(out.codes() == row.codes, out.rendered());
    }
}

TEST_CASE("models that use each other in a loop are told with the path, once") {
    const Files loop = {{"a.rate", "model \"A\"\nuse \"b\"\nx : ft = b.y\n"},
                        {"b.rate", "model \"B\"\nuse \"c\"\ny : ft = c.z\n"},
                        {"c.rate", "model \"C\"\nuse \"a\"\nz : ft = a.x\n"}};
    const auto out = resolve_text("model \"m\"\nuse \"a\"\n", {loop});
    REQUIRE(out.codes() == "N207");
    CHECK(out.diagnostics.all()[0].title == "3 models use each other in a loop");
    CHECK(out.diagnostics.all()[0].notes[0] == "a.rate uses b.rate uses c.rate uses a.rate");
    const Files itself = {{"a.rate", "model \"A\"\nuse \"a\" with x = 3 ft\ngiven x = 2 ft\n"}};
    CHECK(resolve_text("model \"m\"\nuse \"a\"\n", {itself}).codes() == "N207");
    CHECK(resolve_text("model \"m\"\nuse \"test\"\n",
                       {Files{{"test.rate", "model \"m\"\nuse \"test\"\n"}}})
              .codes() == "N207");
}

TEST_CASE("a copy is correlated by what it draws itself") {
    const Files rig = {{"rig.rate",
                        "model \"Rig\"\ngiven age = 2 yr\ngiven fuel = 4 ft  swing 3 ft .. 5 ft\n"
                        "given oil = 4 ft  swing 3 ft .. 5 ft\n"
                        "correlate fuel, oil 60 %\n"}};
    const auto pairs = [&](const std::string& uses) {
        const auto out = resolve_ok("model \"m\"\n" + uses, {rig});
        std::string said;
        for (const lang::Correlation& c : out.sheet.correlations)
            said += out.sheet.lines[out.sheet.givens[c.first].line].name + " " +
                    out.sheet.lines[out.sheet.givens[c.second].line].name + "; ";
        return said;
    };
    CHECK(pairs("use \"rig\"\n") == "rig.fuel rig.oil; ");
    const std::string spare = "use \"rig\"\nuse \"rig\" as spare with ";
    // What the copy does not set follows the shared one, and is drawn with it.
    CHECK(pairs(spare + "age = 9 yr\n") == "rig.fuel rig.oil; ");
    CHECK(pairs(spare + "fuel = 4.5 ft\n") == "rig.fuel rig.oil; spare.fuel rig.oil; ");
    CHECK(pairs(spare + "oil = 4.5 ft\n") == "rig.fuel rig.oil; rig.fuel spare.oil; ");
    CHECK(pairs(spare + "fuel = 4.5 ft, oil = 4.5 ft\n") ==
          "rig.fuel rig.oil; spare.fuel spare.oil; ");
}

TEST_CASE("two shared models may not have one name, nor two used models in one model") {
    const Files same = {{"one/haul.rate", "model \"One\"\ngiven a = 1 ft\n"},
                        {"two/haul.rate", "model \"Two\"\ngiven a = 1 ft\n"}};
    const auto out = resolve_text(
        "model \"m\"\nuse \"one/haul\" as h1\nuse \"two/haul\" as h2\nx : ft = h2.a\n", {same});
    REQUIRE(out.codes() == "N210");
    CHECK(out.diagnostics.all()[0].title == "two used models would both be called `haul`");
    CHECK(out.diagnostics.all()[0].others.at(0).text == "one/haul.rate");
    REQUIRE(out.diagnostics.all()[0].helps.size() == 1);
    CHECK(out.diagnostics.all()[0].helps[0].text == "rename one of the two files");
    CHECK(resolve_text("model \"m\"\nuse \"one/haul\"\nuse \"two/haul\"\n", {same})
              .codes()
              .find("N202") == 0);
    CHECK(resolve_text("model \"m\"\nuse \"crawler\" as c\nuse \"crawler\" as c with age = 9 yr\n",
                       {files})
              .codes() == "N202");
    CHECK(resolve_ok(
              "model \"m\"\nuse \"crawler\" as c\nuse \"crawler\" as d\nx : yr = c.age + d.age\n",
              {files})
              .formula("x") == "(crawler.age + crawler.age)");
}

TEST_CASE("a library without lines may have the name of a model") {
    const Files same = {
        {"haul.rate", "model \"Haul\"\nuse \"lib/haul\"\ngiven a = 1 ft\nx : ft = f(a)\n"},
        {"lib/haul.rate", "library \"Haul\"\ndefine f (x : ft) : ft = x\n"}};
    for (const char* uses :
         {"use \"haul\"\nuse \"lib/haul\" as lib\n", "use \"lib/haul\" as lib\nuse \"haul\"\n"}) {
        CAPTURE(uses);
        const auto out =
            resolve_ok(std::string("model \"m\"\n") + uses, {same, "", {{"haul.a", "2 ft"}}});
        CHECK(out.formula("haul.x") == "f(haul.a)");
        CHECK(out.formula("haul.a") == "2");
    }
}

TEST_CASE("dotted names of two kinds may not meet") {
    const Files quantity = {{"fuel.rate", "model \"F\"\ngiven quantity = 1 h\n"}};
    const auto out = resolve_text(
        "model \"m\"\nuse \"fuel\" as f\ncost fuel : $/h = $1/h over 2 h\n", {quantity});
    CHECK(out.codes() == "N210");
}

TEST_CASE("costs of a used model count in the part that uses it, or in one named after it") {
    struct Row {
        std::string text, part;
    };
    const std::vector<Row> rows = {
        {"part \"Move\"\n  use \"haul\"\n", "Move"},
        {"use \"haul\"\npart \"Move\"\n  given a = 1 ft\n", "Haul"},
        {"use \"outer\"\npart \"Move\"\n  given a = 1 ft\n", "Outer"},
        {"part \"Move\"\n  use \"outer\"\n", "Move"},
        {"part \"Move\"\n  use \"outer\"\n  use \"haul\"\n", "Move"},
    };
    Files more = files;
    more["outer.rate"] = "model \"Outer\"\nuse \"haul\" as h\ncost own : $/h = $1/h over 2 h\n";
    for (const Row& row : rows) {
        CAPTURE(row.text);
        const auto out = resolve_ok("model \"m\"\n" + row.text, {more});
        for (const lang::Cost& cost : out.sheet.costs) {
            REQUIRE(cost.part != lang::none);
            CHECK(out.sheet.parts[cost.part].title == row.part);
            CHECK(out.sheet.parts[cost.part].instance.empty());
        }
        const lang::Line& driver = out.line("haul.driver");
        CHECK(out.sheet.parts[driver.part].title ==
              "Road"); // the line itself stays in its own part
        CHECK(out.sheet.parts[driver.part].instance == "haul");
    }
}

TEST_CASE("used models multiply only so far") {
    Files tower;
    for (int i = 0; i < 12; ++i) {
        const std::string next = "\"level" + std::to_string(i + 1) + "\"";
        tower["level" + std::to_string(i) + ".rate"] = "model \"L\"\nuse " + next +
                                                       " as a with x = 1 ft\nuse " + next +
                                                       " as b with x = 2 ft\ngiven x = 3 ft\n";
    }
    tower["level12.rate"] = "model \"L\"\ngiven x = 3 ft\n";
    CHECK(resolve_text("model \"m\"\nuse \"level0\"\n", {tower}).codes() == "N214");
}

} // namespace resolve_instances_test
