#include <doctest/doctest.h>

#include <string>

#include "tests/support/resolve_text.h"

namespace resolve_lists_test {

using namespace acre;
using tests::Files;
using tests::resolve_ok;
using tests::resolve_text;
using tests::written;

namespace {

const Files road = {{"road.rate", R"(model "Road"
list leg  "a stretch of road"
part "Legs" each leg
  given miles : mi  "miles"
  given speed = 30 mi/h
  hours : h = miles / speed
  leave : h = 19 h - before(hours) - hours
  gone : mi = before(gone) + miles
  share : 1 = miles / sum(miles)
part "All"
  way : mi = sum(miles)
  start : h = least(leave)
  legs : 1 = how_many(leg)
)"}};

const Files ground = {{"ground.rate", R"(model "Ground"
list block
list layer = top | pan | low  "from the surface down"
part "Blocks" each block
  given area = 10 ac
  given wet = 20 %
part "Layers" each layer of block
  given thick : ft = when layer is top then 3 ft when layer is pan then 1 ft otherwise 0 ft
  given damp : % = wet
  bottom : ft = before(thick) + thick
part "Depths" each block
  deep : ft = sum(thick)
  crust : ft = pan.thick
part "All"
  deepest : ft = most(thick)
  pans : ft = sum(pan.thick)
)"}};

const std::string three_legs = R"(job "j"
model "road"
leg corvane "Corvane County"
  set miles = 62 mi
leg pass "over the pass"
  set miles = 48 mi
  set speed = 22 mi/h
leg lisk
  set miles = 95 mi
)";

} // namespace

TEST_CASE("a part is computed for each entry of a list that the job lists") {
    const auto out = resolve_ok(three_legs, {road});
    CHECK(out.formula("pass.hours") == "(pass.miles / pass.speed)");
    CHECK(out.formula("way") == "sum(corvane.miles, pass.miles, lisk.miles)");
    CHECK(out.formula("start") == "least(corvane.leave, pass.leave, lisk.leave)");
    CHECK(out.formula("legs") == "3");
    CHECK(out.sheet.entries.size() == 3);
    CHECK(out.sheet.entries[out.line("pass.hours").entry].label == "over the pass");
}

TEST_CASE("before adds up the entries before the one at hand; at the first it is nothing") {
    const auto out = resolve_ok(three_legs, {road});
    CHECK(out.formula("corvane.leave") == "((19 - 0) - corvane.hours)");
    CHECK(out.formula("lisk.leave") == "((19 - sum(corvane.hours, pass.hours)) - lisk.hours)");
    CHECK(out.formula("lisk.gone") == "(sum(corvane.gone, pass.gone) + lisk.miles)");
}

TEST_CASE("inside the part of a list, sum runs over all its entries") {
    const auto out = resolve_ok(three_legs, {road});
    CHECK(out.formula("pass.share") == "(pass.miles / sum(corvane.miles, pass.miles, lisk.miles))");
}

TEST_CASE("no entry listed: one without a name") {
    const auto out = resolve_ok("job \"j\"\nmodel \"road\"\nset miles = 60 mi\n", {road});
    CHECK(out.formula("way") == "sum(miles)");
    CHECK(out.formula("leave") == "((19 - 0) - hours)");
    CHECK(out.formula("legs") == "1");
    CHECK(out.sheet.entries.empty());
}

TEST_CASE("a model gives entries of its own, and asks which is at hand") {
    const auto out = resolve_ok("job \"j\"\nmodel \"ground\"\nset pan.thick = 2 ft\n", {ground});
    CHECK(out.formula("deep") == "sum(top.thick, pan.thick, low.thick)");
    CHECK(out.formula("crust") == "pan.thick");
    CHECK(out.formula("pan.thick") == "2");
    CHECK(out.formula("low.thick") == "when((low == top), 3, when((low == pan), 1, 0))");
    CHECK(out.formula("low.bottom") == "(sum(top.thick, pan.thick) + low.thick)");
    CHECK(out.formula("pans") == "sum(pan.thick)");
}

TEST_CASE("each layer of block: every block has each layer") {
    const auto out = resolve_ok("job \"j\"\nmodel \"ground\"\nblock river \"River piece\"\n"
                                "  set wet = 30 %\n  set pan.thick = 2 ft\nblock hill\n"
                                "layer top\nlayer pan\n  set damp = 5 %\n",
                                {ground});
    CHECK(out.formula("river.deep") == "sum(river.top.thick, river.pan.thick)");
    CHECK(out.formula("deepest") ==
          "most(river.top.thick, river.pan.thick, hill.top.thick, hill.pan.thick)");
    CHECK(out.formula("pans") == "sum(river.pan.thick, hill.pan.thick)");
    CHECK(out.formula("hill.crust") == "hill.pan.thick");
    CHECK(out.formula("river.pan.thick") == "2");
    CHECK(out.formula("hill.pan.damp") == "5");
    CHECK(out.formula("hill.top.damp") == "hill.wet");
    CHECK(out.sheet.entries[out.line("hill.pan.damp").entry].name == "hill.pan");
}

TEST_CASE("a job's own entries take the place of the model's") {
    const auto out = resolve_ok("job \"j\"\nmodel \"ground\"\nlayer pan\nlayer clay\n",
                                {{{"ground.rate", R"(model "Ground"
list layer = top | pan
part "Layers" each layer
  given thick : ft = when layer is top then 3 ft when layer is pan then 1 ft otherwise 0.5 ft
part "All"
  deep : ft = sum(thick)
)"}}});
    CHECK(out.formula("deep") == "sum(pan.thick, clay.thick)");
    const lang::Node& when = out.sheet.nodes[out.sheet.lines[out.sheet.find("clay.thick")].value];
    const lang::Node& is_top = out.sheet.nodes[when.a];
    CHECK(out.sheet.nodes[is_top.a].index == 2); // neither of the two that the model names
}

TEST_CASE("a job takes entries and values from a file, and may say more of an entry") {
    Files files = road;
    files["route.values"] = R"(values "Over the pass"
set speed = 25 mi/h because "winter"
leg corvane "Corvane County"
  set miles = 62 mi
leg pass
  set miles = 48 mi
  set speed = 22 mi/h
)";
    const std::string job = "job \"j\"\nmodel \"road\"\nwith \"route\"\n";
    const auto out = resolve_ok(job, {files});
    CHECK(out.formula("way") == "sum(corvane.miles, pass.miles)");
    CHECK(out.formula("corvane.speed") == "25");
    CHECK(out.formula("pass.speed") == "22");
    CHECK(out.given("pass.speed").settings.back().layer == lang::Layer::Values);
    const auto more = resolve_ok(job + "leg pass \"over the pass\"\n  set miles = 50 mi\nleg lisk\n"
                                       "  set miles = 9 mi\nset speed = 40 mi/h\n",
                                 {files});
    CHECK(more.formula("way") == "sum(corvane.miles, pass.miles, lisk.miles)");
    CHECK(more.formula("pass.miles") == "50");
    CHECK(more.formula("pass.speed") == "40"); // the job over the file
    CHECK(more.sheet.entries[more.line("pass.miles").entry].label == "over the pass");
    CHECK(resolve_text(job + "with \"nowhere\"\n", {files}).codes() == "F701");
}

TEST_CASE("slips with lists") {
    struct Row {
        std::string job, codes, title;
    };
    const std::vector<Row> rows = {
        {"lag x\n", "N217", "no list named `lag`"},
        {"leg a\nleg a\n", "N202", "two entries are called `a`"},
        {"leg way\n", "N202", "`way` is the name of a line, so no entry can have it"},
        {"leg a\n  set way = 3 mi\n", "I606", "`way` is computed and cannot be set"},
        {"leg a\nleg b\nset miles = 60 mi\n", "I610",
         "`miles` is set for each leg at once, and the job has 2"},
        {"leg a\nset c.miles = 60 mi\n", "I607", "the job has no leg `c`"},
        {"set miles = way\n", "", ""},
    };
    for (const Row& row : rows) {
        CAPTURE(row.job);
        const auto out = resolve_text("job \"j\"\nmodel \"road\"\n" + row.job, {road});
        REQUIRE_MESSAGE(out.codes() == row.codes, out.rendered());
        if (!row.title.empty())
            CHECK(out.diagnostics.all()[0].title == row.title);
    }
    const std::vector<Row> models = {
        {"part \"P\" each lag\n", "N217", "no list named `lag`"},
        {"list leg\nlist leg\n", "N202", "the list `leg` is declared twice"},
        {"list hold\n", "S108", "`hold` is a word of the notation and cannot name a list"},
        {"list leg\npart \"P\" each leg\n  given a = 1 mi\nx : mi = before(a)\n", "N218",
         "`before` stands outside the list `leg`"},
        {"list leg\nx : 1 = how_many(lag)\n", "N217", "no list named `lag`"},
        {"list leg = a | b\npart \"P\" each leg\n  x : 1 = when leg is c then 1 otherwise 2\n",
         "N204", "`c` is not a choice of `leg`"},
    };
    for (const Row& row : models) {
        CAPTURE(row.job);
        const auto out = resolve_text("model \"m\"\n" + row.job);
        REQUIRE_MESSAGE(out.codes() == row.codes, out.rendered());
        CHECK(out.diagnostics.all()[0].title == row.title);
    }
}

TEST_CASE("an instance with values of its own starts from the shared one") {
    const Files files = {{"pair.rate", R"(model "Pair"
use "crawler"
use "crawler" as second with power = 600 hp
total : $/h = crawler.own + second.own
)"},
                         {"crawler.rate", R"(model "Crawler"
given power = 850 hp
given paid = $900,000  swing $800,000 .. $1,000,000
given kit = $0
given burn : gal/h = power * 0.04 gal/h/hp  swing 90 % .. 110 % of it
own : $/h = (paid + kit) / 20,000 h + burn * $4/gal
)"}};
    const std::string job = "job \"j\"\nmodel \"pair\"\n";
    const auto plain = resolve_ok(job, {files});
    CHECK(plain.formula("second.power") == "600");
    CHECK(plain.formula("second.paid") == "crawler.paid");
    CHECK(plain.given("second.paid").swing_low == lang::none);
    CHECK(plain.formula("second.burn") == "(second.power * 0.04)"); // computed anew
    CHECK(plain.given("second.burn").swing_low != lang::none);
    const auto set = resolve_ok(
        job + "set crawler.kit = $38,000 because \"guidance\"\nset crawler.burn = 30 gal/h\n",
        {files});
    CHECK(set.formula("second.kit") == "crawler.kit");
    CHECK(set.given("second.kit").settings.back().because == "guidance");
    CHECK(set.formula("second.burn") == "crawler.burn");
    CHECK(resolve_ok(job + "set crawler.kit = $38,000\nset second.kit = $0\n", {files})
              .formula("second.kit") == "0");
    tests::Choices first{files};
    first.notation = 1; // sealed texts: an instance was by itself
    CHECK(resolve_ok(job + "set crawler.kit = $38,000\n", first).formula("second.kit") == "0");
}

} // namespace resolve_lists_test
