#include <doctest/doctest.h>

#include <string>

#include "tests/support/resolve_text.h"

namespace resolve_blocks_test {

using namespace acre;
using tests::Files;
using tests::resolve_ok;
using tests::resolve_text;
using tests::written;

namespace {

const Files files = {
    {"ground.rate", R"(model "Ground"
use "shared"
given wage = $30/h
list block
part "Ground" each block
  given area = 80 ac
  given wide = 5 ft
  given gap = 80 ft
  hours : h = area / (4 ac/h) + shared.extra
  use "draft" as draft with depth = wide, wet = shared.wet
  force : lbf = draft.force
  cost tips : $/ac = $3/ac over area
  event break = 0.01 1/h over hours costs $900
  require area > 0 ac  "no ground"
  caution when area < 5 ac  "small"
part "Job"
  total : h = sum(hours)
  deepest : lbf = most(draft.force)
  least_area : ac = least(area)
  cost crew : $/h = wage over total
  caution "always"
price "Ripping" per ac of sum(area)
)"},
    {"draft.rate", "model \"Draft\"\ngiven depth = 3 ft\ngiven wet = 10 %\nforce : lbf = depth * "
                   "100 lbf/ft * (1 + wet)\n"},
    {"shared.rate",
     "model \"S\"\nlist block\ngiven wet = 20 %\npart \"E\" each block\n  given extra = 1 h\n"}};

const std::string two_blocks = R"(job "j"
model "ground"
block north "North side"
  set area = 60 ac
block south
)";

} // namespace

TEST_CASE("an each-block part is computed for each block of the job, under the block's name") {
    const auto out = resolve_ok(two_blocks, {files});
    CHECK(out.sheet.entries.size() == 2);
    CHECK(out.sheet.entries[0].label == "North side");
    CHECK(out.formula("north.area") == "60");
    CHECK(out.formula("south.area") == "80");
    CHECK(out.formula("south.hours") == "((south.area / 4) + shared.south.extra)");
    CHECK(out.formula("total") == "sum(north.hours, south.hours)");
    CHECK(out.formula("least_area") == "least(north.area, south.area)");
    CHECK(out.line("north.hours").entry == 0);
    CHECK(out.line("south.hours").entry == 1);
    CHECK(out.line("total").entry == lang::none);
    CHECK(out.sheet.find("area") == lang::none);
}

TEST_CASE("a model used with bindings in an each-block part has an instance for each block") {
    const auto out = resolve_ok(two_blocks, {files});
    CHECK(out.formula("north.draft.depth") == "north.wide");
    CHECK(out.formula("south.draft.depth") == "south.wide");
    CHECK(out.formula("south.draft.force") ==
          "((south.draft.depth * 100) * (1 + south.draft.wet))");
    CHECK(out.formula("south.force") == "south.draft.force");
    CHECK(out.formula("deepest") == "most(north.draft.force, south.draft.force)");
    CHECK(out.line("south.draft.force").entry == 1);
}

TEST_CASE(
    "costs, events, requirements and cautions of an each-block part stand once for each block") {
    const auto out = resolve_ok(two_blocks, {files});
    CHECK(out.sheet.costs.size() == 3);
    CHECK(out.formula("north.tips.amount") == "(north.tips * north.tips.quantity)");
    CHECK(out.formula("ripping.cost") == "sum(north.tips.amount, south.tips.amount, crew.amount)");
    CHECK(out.formula("ripping.quantity") == "sum(north.area, south.area)");
    CHECK(out.sheet.events.size() == 2);
    CHECK(out.formula("south.break.amount") == "(south.break * south.break.money)");
    REQUIRE(out.sheet.requires_.size() == 2);
    CHECK(written(out.sheet, out.sheet.requires_[1].condition) == "(south.area > 0)");
    CHECK(out.sheet.requires_[1].entry == 1);
    CHECK(out.sheet.cautions.size() == 3);
}

TEST_CASE("a job without blocks is one piece of ground with plain names") {
    const auto out = resolve_ok("job \"j\"\nmodel \"ground\"\nset area = 50 ac\n", {files});
    CHECK(out.sheet.entries.empty());
    CHECK(out.formula("area") == "50");
    CHECK(out.formula("total") == "sum(hours)");
    CHECK(out.formula("draft.depth") == "wide");
    CHECK(out.formula("deepest") == "most(draft.force)");
    CHECK(out.line("area").entry == lang::none);
    CHECK(out.formula("hours") == "((area / 4) + shared.extra)");
}

TEST_CASE(
    "what the job sets holds for all blocks, what a block sets for itself, an option over both") {
    const std::string job =
        "job \"j\"\nmodel \"ground\"\nblock north\n  set gap = 60 ft\nblock south\n"
        "set gap = 50 ft because \"net\"\noption \"Wide\"\n  set "
        "wide = 6 ft\n  set north.wide = 7 ft\n";
    const auto out =
        resolve_ok(job, {files, "Wide", {{"south.gap", "40 ft"}}, "set gap = 45 ft\n"});
    CHECK(out.formula("north.gap") == "60");
    CHECK(out.formula("south.gap") == "40");
    CHECK(out.formula("north.wide") == "7");
    CHECK(out.formula("south.wide") == "6");
    using lang::Layer;
    std::string layers;
    for (const lang::Setting& setting : out.given("north.gap").settings)
        layers += std::to_string(static_cast<int>(setting.layer)) + "=" +
                  written(out.sheet, setting.value) + " ";
    CHECK(layers == "0=80 4=50 5=45 6=60 ");
    CHECK(out.given("north.gap").settings[1].because == "net");
}

TEST_CASE("one block set apart keeps its value, whichever stands first") {
    for (const char* sets :
         {"set north.gap = 7 ft\nset gap = 5 ft\n", "set gap = 5 ft\nset north.gap = 7 ft\n"}) {
        CAPTURE(sets);
        const auto out = resolve_ok(std::string("job \"j\"\nmodel \"ground\"\n") + sets +
                                        "block north\nblock south\n",
                                    {files});
        CHECK(out.formula("north.gap") == "7");
        CHECK(out.formula("south.gap") == "5");
    }
}

TEST_CASE("values set in a block, or for all blocks, are computed with the block's own lines") {
    const auto out = resolve_ok(
        two_blocks + "  set wide = area / (10 ac/ft)\nset draft.wet = wide / (100 ft)\n", {files});
    CHECK(out.formula("south.wide") == "(south.area / 10)");
    CHECK(out.formula("north.draft.wet") == "(north.wide / 100)");
    CHECK(out.formula("south.draft.wet") == "(south.wide / 100)");
}

TEST_CASE("slips with blocks") {
    struct Row {
        std::string job, codes, title;
    };
    const std::vector<Row> rows = {
        {"block a\n  set wage = $3/h\n", "I601",
         "`wage` has one value for the whole job; no entry can set it"},
        {"block a\n  set aria = 3 ac\n", "I601", "no given named `aria`"},
        {"block a\nset west.area = 3 ac\n", "I607", "the job has no block `west`"},
        {"block a\nblock a\n", "N202", "two entries are called `a`"},
        {"block a\n  set area = 1 ac\n  set area = 2 ac\n", "I604", "`area` is set twice"},
        {"block a\n  set hours = 1 h\n", "I606", "`hours` is computed and cannot be set"},
        {"block a\nset wage = hours * $1/h^2\n", "N215",
         "`hours` has a value for each block; use sum, most or least here"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.job);
        const auto out = resolve_text("job \"j\"\nmodel \"ground\"\n" + row.job, {files});
        REQUIRE_MESSAGE(out.codes() == row.codes, out.rendered());
        CHECK(out.diagnostics.all()[0].title == row.title);
    }
    const auto none = resolve_text("job \"j\"\nmodel \"draft\"\nblock a\n", {files});
    REQUIRE(none.codes() == "N217");
    CHECK(none.diagnostics.all()[0].title == "no list named `block`");
}

TEST_CASE("blocks multiply only so far") {
    const auto codes = [](int blocks, const std::string& lines) {
        std::string job = "job \"j\"\nmodel \"m\"\n";
        for (int i = 0; i < blocks; ++i)
            job += "block b" + std::to_string(i) + "\n";
        return resolve_text(
                   job,
                   {Files{{"m.rate",
                           "model \"m\"\nlist block\npart \"P\" each block\n  given a = 3 ac\n" +
                               lines}}})
            .codes();
    };
    std::string hundred;
    for (int i = 0; i < 99; ++i)
        hundred += "  given g" + std::to_string(i) + " : ac\n";
    CHECK(codes(1'000, hundred) == "");                          // 100,000 lines
    CHECK(codes(1'000, hundred + "  given h : ac\n") == "N214"); // and a thousand more
    CHECK(codes(700, "  s : ac = sum(a)\n") == "");
    CHECK(codes(800, "  s : ac = sum(a)\n") == "N214"); // each of 800 lines reads 800
}

TEST_CASE(
    "a line of a block is read from outside through sum, most and least only, blocks or not") {
    struct Row {
        std::string formula, codes;
    };
    const std::vector<Row> rows = {
        {"a", "N215"},
        {"sum(a)", ""},
        {"sum(plain)", "N213"},
        {"sum(a + a)", "N213"},
        {"sum(a) + most(a) + least(a)", ""},
        {"sum(nothing)", "N201"},
        {"sum(3 ac)", "N213"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.formula);
        const auto out = resolve_text(
            "model \"m\"\nx : ac = " + row.formula +
            "\ngiven plain = 1 ac\nlist block\npart \"P\" each block\n  given a = 3 ac\n");
        CHECK_MESSAGE(out.codes() == row.codes, out.rendered());
    }
    CHECK(resolve_ok("model \"m\"\nlist block\npart \"P\" each block\n  given a = 3 ac\n  share : "
                     "1 = a / sum(a)\n")
              .formula("share") == "(a / sum(a))");
}

TEST_CASE("what sum adds up over several blocks cannot be set for all of them at once") {
    const Files more = {{"ground.rate", R"(model "Ground"
list block
part "Ground" each block
  given gross = 80 ac
  given area : ac = gross * 95 %
  given wide = 5 ft
  given trees : 1 = area / (100 ft^2)
  hours : h = area / (4 ac/h)
part "Job"
  total : h = sum(hours)
  all_trees : 1 = sum(trees)
  cost crew : $/h = $30/h over total
price "Ripping" per ac of sum(area)
)"}};
    const std::string two = "block north\n  set gross = 60 ac\nblock south\n  set gross = 20 ac\n";
    struct Row {
        std::string sets, blocks, codes;
    };
    const std::vector<Row> rows = {
        {"", two, ""},
        {"set wide = 6 ft\n", two, ""},
        {"set area = 60 ac\n", two, "I610"},
        {"set gross = 60 ac\n", two, "I610"},
        {"set trees = 600\n", two, "I610"},
        {"set area = 60 ac\n", "block north\n", ""}, // of one block and of none
        {"set area = 60 ac\n", "", ""},
        {"", "block north\n  set area = 60 ac\nblock south\n", "L821"},
        {"", "block north\n  set trees = 60\nblock south\n", ""}, // the others compute theirs
        {"", "block north\nblock south\n", ""},
        {"", two + "option \"More\"\n  set area = 90 ac\n", "I610"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.sets);
        CAPTURE(row.blocks);
        const auto out =
            resolve_text("job \"j\"\nmodel \"ground\"\n" + row.sets + row.blocks, {more});
        CHECK_MESSAGE(out.codes() == row.codes, out.rendered());
    }
    const auto typed =
        resolve_text("job \"j\"\nmodel \"ground\"\n" + two, {more, "", {{"area", "80 ac"}}});
    REQUIRE(typed.codes() == "I610");
    const lang::Diagnostic& d = typed.diagnostics.all()[0];
    CHECK(d.helps.at(0).text ==
          "say how it is shared out, block by block: `north.area`, `south.area`");
}

} // namespace resolve_blocks_test
