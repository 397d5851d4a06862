#include <doctest/doctest.h>

#include <string>

#include "tests/support/resolve_text.h"

namespace resolve_layers_test {

using namespace acre;
using tests::Files;
using tests::resolve_ok;
using tests::resolve_text;

namespace {

const Files files = {
    {"rip.rate",
     "model \"Ripping\"\nuse \"season-prices\" as p\nuse \"crawler\" as big with age = 4 "
     "yr\nchoice texture = fine | medium\n"
     "given area = 80 ac  because \"county map\"\ngiven depth : ft\ngiven soil : texture = medium\n"
     "given method = full_field | tree_rows\ntravel : mi = area / (7 ft)\ncost crew : $/h = p.wage "
     "over 3 h\n"},
    {"season-prices.rate",
     "model \"Season prices\"\ngiven diesel = $4.20/gal\ngiven wage = $30/h\n"},
    {"crawler.rate", "model \"Crawler\"\ngiven age = 3 yr\n"},
    {"2027.season", "season \"2027\"\nset season_prices.diesel = $4.35/gal  because \"quote of 4 "
                    "January\"\nset area = 81 ac\nset big.age = 5 yr\n"
                    "set other.thing = 3 ac\n"},
};

std::string layers(const tests::Resolved& out, std::string_view name) {
    std::string text;
    for (const lang::Setting& setting : out.given(name).settings)
        text += (text.empty() ? "" : " ") + std::to_string(static_cast<int>(setting.layer)) + ":" +
                tests::written(out.sheet, setting.value);
    return text;
}

const std::string job = "job \"j\"\nmodel \"rip\"\n";

} // namespace

TEST_CASE("later layers win, and every value remembers who set it and because of what") {
    const std::string text = job + "season \"2027\"\nset area = 152 ac  because \"walked\"\nset "
                                   "big.age = 6 yr\noption \"Rows\"\n"
                                   "  set area = 140 ac\n  set method = tree_rows\n";
    const auto out = resolve_ok(
        text, {files, "Rows", {{"area", "100 ac"}, {"soil", "fine"}}, "set area = 150 ac\n"});
    CHECK(layers(out, "area") == "0:80 2:81 4:152 5:150 7:140 8:100");
    CHECK(out.formula("area") == "100");
    CHECK(layers(out, "big.age") == "0:3 1:4 2:5 4:6");
    CHECK(layers(out, "method") == "0:full_field 7:tree_rows");
    CHECK(layers(out, "soil") == "0:medium 8:fine");
    CHECK(layers(out, "season_prices.diesel") == "0:4.2 2:4.35");
    CHECK(layers(out, "depth").empty());
    CHECK(out.line("depth").value ==
          lang::none); // yours to set, and told only when somebody needs it
    const auto& settings = out.given("area").settings;
    CHECK(settings[0].because == "county map");
    CHECK(settings[2].because == "walked");
    CHECK(out.sources->text(settings[2].span) == "set area = 152 ac  because \"walked\"");
    CHECK(out.sources->file(settings[5].span.file).name() == "command line");
}

TEST_CASE("what a season sets for some days holds for jobs of those days, wherever it stands") {
    const Files dated = {
        {"dig.rate", "model \"Dig\"\ngiven pay = $20/h\ngiven soil = fine | medium\n"},
        {"2027.season", "season \"2027\"\n"
                        "set pay = $36/h  within 2027-08-01 .. 2027-10-31  because \"harvest\"\n"
                        "set pay = $30/h  within 2027-12-24\n"
                        "set pay = $34/h  because \"wage table\"\n"
                        "set soil = medium  within 2027-11-01 .. 2028-03-31\n"}};
    const auto on = [&](const std::string& day) {
        return resolve_ok("job \"j\"\nmodel \"dig\"\nseason \"2027\"\ndate " + day + "\n", {dated});
    };
    CHECK(on("2027-07-31").formula("pay") == "34");
    CHECK(on("2027-08-01").formula("pay") == "36");
    CHECK(on("2027-10-31").formula("pay") == "36");
    CHECK(on("2027-11-01").formula("pay") == "34");
    CHECK(on("2027-12-23").formula("pay") == "34");
    CHECK(on("2027-12-24").formula("pay") == "30");
    CHECK(on("2027-12-25").formula("pay") == "34");
    CHECK(on("2027-10-31 .. 2027-12-31").formula("soil") == "fine"); // the earliest start decides
    CHECK(on("2028-03-31").formula("soil") == "medium");
    const auto harvest = on("2027-08-01");
    CHECK(layers(harvest, "pay") == "0:20 2:34 2:36");
    CHECK(harvest.given("pay").settings.back().because == "harvest");
    CHECK(harvest.given("pay").of_other_days.size() == 1);
    // A job's own figure wins all the same.
    CHECK(
        resolve_ok("job \"j\"\nmodel \"dig\"\nseason \"2027\"\ndate 2027-09-01\nset pay = $40/h\n",
                   {dated})
            .formula("pay") == "40");
}

TEST_CASE("days of one given that meet, days in a job, and a job without a date are told") {
    const auto said = [](const std::string& season, const std::string& job) {
        return resolve_text("job \"j\"\nmodel \"dig\"\nseason \"2027\"\n" + job,
                            {{{"dig.rate", "model \"Dig\"\ngiven pay = $20/h\ngiven wet = 1 ft\n"},
                              {"2027.season", "season \"2027\"\n" + season}}})
            .codes();
    };
    const std::string first = "set pay = $36/h  within 2027-08-01 .. 2027-10-31\n";
    CHECK(said(first + "set pay = $30/h  within 2027-10-31\n", "date 2027-01-01\n") == "I604");
    const auto twice = resolve_text(
        "job \"j\"\nmodel \"dig\"\nseason \"2027\"\ndate 2027-01-01\n",
        {{{"dig.rate", "model \"Dig\"\ngiven pay = $20/h\n"},
          {"2027.season", "season \"2027\"\n" + first + "set pay = $30/h  within 2027-10-31\n"}}});
    REQUIRE(twice.diagnostics.all().size() == 1);
    const lang::Diagnostic& d = twice.diagnostics.all()[0];
    CHECK(d.primary.text == "within 2027-10-31");
    REQUIRE(d.others.size() == 1);
    CHECK(d.others[0].text == "within 2027-08-01 .. 2027-10-31");
    REQUIRE(d.helps.size() == 1);
    CHECK(d.helps[0].text == "let one begin on the day after the other ends");
    CHECK(said(first + "set pay = $30/h  within 2027-07-01 .. 2027-08-01\n", "date 2027-01-01\n") ==
          "I604");
    CHECK(said(first + "set pay = $30/h  within 2027-11-01\n", "date 2027-01-01\n").empty());
    CHECK(said(first + "set wet = 2 ft  within 2027-10-31\n", "date 2027-01-01\n").empty());
    CHECK(said(first, "") == "L839");
    CHECK(said(first, "date 2027-01-01\nset pay = $30/h  within 2027-11-01\n") == "S104");
    CHECK(said("set pay = $36/h  within 2027-10-31 .. 2027-08-01\n", "date 2027-01-01\n") ==
          "S117");
}

TEST_CASE("a swing that a job sets takes the place of the range that the model has") {
    const Files pits = {{"dig.rate", "model \"Dig\"\ngiven deep = 5 ft  choose 3 ft .. 7 ft\n"
                                     "given pan = 2 ft  swing 1 ft .. 4 ft\n"}};
    const auto out =
        resolve_ok("job \"j\"\nmodel \"dig\"\nset deep = 6 ft swing pert 5 ft .. 7 ft\n"
                   "set pan = 3 ft  because \"three pits\"  swing 80 % .. 120 % of it\n",
                   {pits});
    CHECK_FALSE(out.given("deep").chosen);
    CHECK(tests::written(out.sheet, out.given("deep").swing_low) == "5");
    CHECK(out.given("deep").shape == lang::ast::SwingShape::Pert);
    CHECK(out.given("pan").of_it);
    CHECK(tests::written(out.sheet, out.given("pan").swing_high) == "120");
    CHECK(out.given("pan").settings.back().because == "three pits");
    // A later value without a swing leaves the range; an option that is not taken sets none.
    const auto later = resolve_ok("job \"j\"\nmodel \"dig\"\nset pan = 3 ft swing 2 ft .. 5 ft\n"
                                  "option \"Dry\"\n  set pan = 2 ft swing 1 ft .. 3 ft\n",
                                  {pits, "", {{"pan", "4 ft"}}});
    CHECK(tests::written(later.sheet, later.given("pan").swing_high) == "5");
}

TEST_CASE("an option that is not chosen sets nothing, and its slips are told all the same") {
    CHECK(layers(
              resolve_ok(job + "option \"A\"\n  set area = 1 ac\noption \"B\"\n  set area = 2 ac\n",
                         {files, "B"}),
              "area") == "0:80 7:2");
    CHECK(layers(resolve_ok(job + "option \"A\"\n  set area = 1 ac\n", {files}), "area") == "0:80");
    CHECK(resolve_text(job + "option \"A\"\n  set aria = 1 ac\n", {files}).codes() == "I601");
    CHECK(resolve_text(job + "option \"A\"\n  set area = aria\n", {files}).codes() == "N201");
}

TEST_CASE("a value from outside may be a formula over lines of the model") {
    const auto out = resolve_ok(job + "set depth = travel / 1000 + p.wage * 0 ft/($/h)\nset area = "
                                      "season_prices.wage * 2 ac/($/h)\n",
                                {files});
    CHECK(out.formula("depth") == "((travel / 1000) + (season_prices.wage * 0))");
    CHECK(out.formula("area") == "(season_prices.wage * 2)");
}

TEST_CASE("what a job, an option, a block or the command line sets must be a given") {
    struct Row {
        std::string sets, codes, title, help;
    };
    const std::vector<Row> rows = {
        {"set aria = 3 ac", "I601", "no given named `aria`",
         "did you mean `area` (rip.rate, line 5)?"},
        {"set p.diesle = $3/gal", "I601", "no given named `p.diesle`",
         "did you mean `p.diesel` (season-prices.rate, line 2)?"},
        {"set travel = 3 mi", "I606", "`travel` is computed and cannot be set",
         "to let people set it, make it a given in the model: write  given travel : mi = area / (7 "
         "ft)"},
        {"set crew.amount = $3", "I606", "`crew.amount` is computed and cannot be set", ""},
        {"set cost.total = $3", "I606", "`cost.total` is computed and cannot be set", ""},
        {"set area = 3 ac\nset area = 4 ac", "I604", "`area` is set twice", ""},
        {"set p.wage = $3/h\nset season_prices.wage = $4/h", "I604",
         "`season_prices.wage` is set twice", ""},
        {"set soil = sandy", "N204", "`sandy` is not a choice of `texture`", ""},
        {"set area = arae", "N201", "no line or given named `arae`", ""},
        {"set area = 3 acer", "N203", "no unit named `acer`", ""},
    };
    for (const Row& row : rows) {
        CAPTURE(row.sets);
        const auto out = resolve_text(job + row.sets + "\n", {files});
        REQUIRE_MESSAGE(out.codes() == row.codes, out.rendered());
        const lang::Diagnostic& d = out.diagnostics.all()[0];
        CHECK(d.title == row.title);
        if (!row.help.empty()) {
            REQUIRE_MESSAGE(!d.helps.empty(), out.rendered());
            CHECK(d.helps[0].text == row.help);
        }
    }
    CHECK(resolve_text(job, {files, "", {{"area", "1 ac"}, {"area", "2 ac"}}}).codes() == "I604");
    CHECK(resolve_text(job, {files, "", {{"nothing", "1 ac"}}}).codes() == "I601");
}

TEST_CASE("a season may set what other models use; a slip in a name of this one's is warned of") {
    struct Row {
        std::string sets, codes;
    };
    const std::vector<Row> rows = {
        {"set planter.speed = 3 mi/h", ""},
        {"set seasons_prices.diesel = $3/gal", "L807"},
        {"set season_prices.diesle = $3/gal", "L807"},
        {"set season_prices.grease = $3/lb", "L807"},
        {"set aera = 3 ac", "L807"},
        {"set tree_count = 3", ""},
        {"set travel = 3 mi", "I606"},
        {"set area = 3 ac\nset area = 4 ac", "I604"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.sets);
        Files more = files;
        more["s.season"] = "season \"S\"\n" + row.sets + "\n";
        CHECK(resolve_text(job + "season \"s\"\n", {more}).codes() == row.codes);
    }
}

TEST_CASE("an option that the job does not list is told with those it does") {
    const auto out = resolve_text(
        job + "option \"Tree rows\"\n  set area = 1 ac\noption \"One way\"\n  set area = 2 ac\n",
        {files, "Tree row"});
    REQUIRE(out.codes() == "I605");
    CHECK(out.diagnostics.all()[0].title == "the job has no option \"Tree row\"");
    CHECK(out.diagnostics.all()[0].helps[0].text == "did you mean \"Tree rows\"?");
    CHECK(resolve_text(job, {files, "x"}).codes() == "I605");
    CHECK(resolve_text(job + "option \"A\"\n  set area = 1 ac\noption \"A\"\n  set area = 2 ac\n",
                       {files})
              .codes() == "N202");
}

TEST_CASE("the sheet knows what the job says about itself") {
    const auto out = resolve_ok(job + "season \"2027\"\nfor \"Quillon Orchards\"\ndate "
                                      "2027-03-14\nfield \"b.geojson\" heading 32 deg\n"
                                      "option \"A\"\n  set area = 1 ac\n",
                                {files});
    const lang::JobInfo& info = out.sheet.job;
    CHECK(info.title == "j");
    CHECK(info.who == "Quillon Orchards");
    REQUIRE(info.date.has_value());
    CHECK(info.date->month == 3);
    CHECK(info.model_title == "Ripping");
    CHECK(info.season_title == "2027");
    CHECK(info.options == std::vector<std::string>{"A"});
    CHECK(info.field_path == "b.geojson");
    CHECK(tests::written(out.sheet, info.field_heading) == "32");
}

TEST_CASE("a given may swing and be bounded by formulas") {
    const auto out = resolve_ok("model \"m\"\ngiven a = 3 ft within 0 ft .. 2 * b swing pert 2 ft "
                                ".. b + 1 ft\ngiven b = 4 ft\n");
    const lang::Given& a = out.given("a");
    CHECK(tests::written(out.sheet, a.within_high) == "(2 * b)");
    CHECK(tests::written(out.sheet, a.swing_low) == "2");
    CHECK(tests::written(out.sheet, a.swing_high) == "(b + 1)");
    CHECK(a.shape == lang::ast::SwingShape::Pert);
    const auto related =
        resolve_ok("model \"m\"\ngiven a = 3 ft\ngiven b = 4 ft\ncorrelate a, b 60 %\n");
    REQUIRE(related.sheet.correlations.size() == 1);
    CHECK(related.sheet.givens[related.sheet.correlations[0].second].line ==
          related.sheet.find("b"));
}

} // namespace resolve_layers_test
