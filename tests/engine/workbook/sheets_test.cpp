// What the sheets of a workbook show, row by row; the figures are worked out by hand.
#include "engine/workbook/workbook.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "tests/support/priced.h"

namespace workbook_sheets_test {

using namespace acre;
using namespace acre::engine;

namespace {

// A margin of 20 % over $10 an acre and $0.055 a tree.
const std::string model = R"(model "Rip"
noun tree
given area = 80 ac  "net acres"
given depth = 5 ft  "depth"
given trees = 200 tree  "trees"
part "Rip"
  cost own : $/ac = $2/ac/ft * depth over area  "crawler"
part "Trees"
  cost mark : $/tree = $0.055/tree over trees  "marking"
part "Moves"
  cost truck : $/ac = $5/ac over area  "truck"
price "Ripping" per ac of area covers "Rip"
  margin 20 %
price "Marking" per tree of trees covers "Trees"
price "Moving" lump covers "Moves"
  round to $50
caution "Call before you dig"
caution when depth > 5.5 ft "Deeper than the pipes"
caution when area > 50 ac "A large job"
)";
const std::string job = "job \"Bench\"\nfor \"Ann\"\nmodel \"rip\"\nseason \"s\"\ndate 2027-06-21\n"
                        "option \"Deep\"\n  set depth = 6 ft\n";
const tests::Choices files{{{"rip.rate", model}, {"s.season", "season \"s\"\n"}}};

Workbook book(const std::string& option = {}, bool beside = false) {
    tests::Choices choices = files;
    choices.option = option;
    const auto first = tests::priced_ok(job, choices);
    choices.option = "Deep";
    WorkbookQuestion question;
    if (beside)
        question.options.push_back({"Deep", *tests::priced_ok(job, choices).made});
    lang::Outcome<Workbook> made = ask(*first.made.value.value(), question);
    REQUIRE(made);
    return std::move(*made);
}

using Rows = std::vector<std::string>;

const BookSheet& sheet(const Workbook& book, const std::string& name) {
    const auto found = std::find_if(book.sheets.begin(), book.sheets.end(),
                                    [&](const BookSheet& one) { return one.name == name; });
    REQUIRE(found != book.sheets.end());
    return *found;
}

// Its rows as people see them: cells beside each other; a text that a formula gives in <>.
Rows rows_of(const Workbook& book, const std::string& name) {
    std::map<std::uint32_t, std::map<std::uint32_t, std::string>> cells;
    for (const BookSheet& one : book.sheets)
        if (one.name == name)
            for (const BookCell& cell : one.cells)
                cells[cell.row][cell.column] = cell.kind == CellKind::Text    ? cell.text
                                               : cell.kind == CellKind::Blank ? ""
                                               : std::isnan(cell.number)
                                                   ? "<" + cell.shown + ">"
                                                   : fmt::format("{:.10g}", cell.number);
    Rows rows;
    for (const auto& [row, columns] : cells) {
        rows.resize(row + 1);
        for (const auto& [column, text] : columns)
            rows[row] += (column == 0 ? "" : "|") + text;
    }
    return rows;
}

} // namespace

TEST_CASE("the sheet of the price is the quote: head, items, total and what to note") {
    // $10 x 80 with 20 % of the price; $0.055 x 200; $5 x 80, which is a step of $50 already.
    const Rows as_quoted = {"Bench",
                            "for|Ann",
                            "date|June 21, 2027",
                            "model|Rip",
                            "season|s",
                            "",
                            "<>", // nothing stands against it
                            "",
                            "what|quantity|unit|rate|amount",
                            "Ripping|80|ac|12.5|1000",
                            "Marking|200|tree|0.055|11",
                            "Moving|lump sum|400",
                            "Total||||1411",
                            "All in|per ac|17.6375",
                            "",
                            "Please note",
                            "These figures are estimates. Local codes and licensed practice "
                            "decide.",
                            "Call before you dig",
                            "<A large job>", // before what does not apply now
                            "<>"};
    CHECK(rows_of(book(), "Price") == as_quoted);
    // $12 x 80 with 20 % of the price.
    Rows deep = as_quoted;
    deep.insert(deep.begin() + 3, "option|Deep");
    deep[10] = "Ripping|80|ac|15|1200";
    deep[13] = "Total||||1611";
    deep[14] = "All in|per ac|20.1375";
    deep[19] = "<Deeper than the pipes>";
    deep[20] = "<A large job>";
    CHECK(rows_of(book("Deep"), "Price") == deep);
}

TEST_CASE("sheets stand in the order in which they are read") {
    const auto names = [](const Workbook& book) {
        Rows out;
        for (const BookSheet& one : book.sheets)
            out.push_back(one.name);
        return out;
    };
    CHECK(names(book()) ==
          Rows{"Price", "Costs", "Givens", "Conditions", "Lines", "Tables", "How to read this"});
    CHECK(names(book("", true)) == Rows{"Price", "Options", "Costs", "Givens", "Conditions",
                                        "Lines", "Lines 2", "Tables", "How to read this"});
}

TEST_CASE("the sheet of options has the job and its options side by side") {
    const Workbook both = book("", true);
    CHECK(rows_of(both, "Options") ==
          Rows{"Options side by side",
               "An option follows the job in everything that it does not set itself.", "",
               "|as quoted|Deep", "Ripping|1000|1200", "Marking|11|11", "Moving|400|400",
               "Price|1411|1611", "All in, per unit|17.6375|20.1375", "Costs|1211|1371",
               "Profit, overhead paid|200|240", "What stands against it|<>|<>"});
    CHECK(sheet(both, "Options").widths.size() == 3);
    CHECK(sheet(both, "Options").red.size() == 2);
    CHECK(rows_of(book(), "Options").empty());
}

TEST_CASE("the sheet of costs goes from rates to the price, step by step") {
    CHECK(rows_of(book(), "Costs") ==
          Rows{"Costs, and from cost to price",
               "A rate times a quantity each; rates and quantities are those of the sheet Lines.",
               "",
               "cost|rate|unit|quantity|unit|amount|share",
               "Rip",
               "crawler|10|$/ac|80|ac|800|0.6606110652", // of 1,211
               "Trees",
               "marking|0.055|$/tree|200|tree|11|0.009083402147",
               "Moves",
               "truck|5|$/ac|80|ac|400|0.3303055326",
               "All costs|1211",
               "",
               "Ripping|added|subtotal",
               "cost|800",
               "margin 20 %|20|%|200|1000",
               "charged, to the cent|1000",
               "",
               "Marking|added|subtotal",
               "cost|11",
               "charged, to the cent|11",
               "",
               "Moving|added|subtotal",
               "cost|400",
               "round to $50|50|$|0|400",
               "charged, to the cent|400",
               "",
               "Profit, overhead paid|200"});
}

TEST_CASE("givens and cautions stand beside those of the option") {
    const Workbook both = book("", true);
    CHECK(rows_of(both, "Givens") ==
          Rows{"Givens",
               "Type into the yellow cells alone. An option follows the job where its cell is "
               "white. Write why under \"your reason\". A share counts in %: for 5 % type 5. A "
               "time of day is typed as 17:30.",
               "", "name|what it is|value|Deep|unit|from|to|your reason|set by|because", "Others",
               "area|net acres|80|80|ac||model|", "depth|depth|5|6|ft||model|",
               "trees|trees|200|200|tree||model|"});
    const Rows conditions = rows_of(both, "Conditions");
    REQUIRE(conditions.size() == 10);
    CHECK(conditions[4] == "hours, money, acres, rates and shares are not below zero|no such line "
                           "is below zero|0|0");
    CHECK(conditions[6] == "caution|where|as quoted|Deep");
    CHECK(conditions[7] == "Call before you dig|always|1|1");
    CHECK(conditions[8] == "Deeper than the pipes|depth > 5.5 ft|0|1");
    CHECK(conditions[9] == "A large job|area > 50 ac|1|1");
}

TEST_CASE("a time of day is a time of the spreadsheet, hours in the lines") {
    const auto made = tests::priced_ok("model \"m\"\n"
                                       "given dusk = 18:00 \"dusk\" within 6:00 .. 21:00\n"
                                       "given back = 12:00 \"back\"\n"
                                       "drive : h = dusk - back\n"
                                       "cost wait : $/h = $10/h over drive\n"
                                       "price \"Stay\" lump\n");
    const lang::Outcome<Workbook> whole = ask(*made.made.value.value(), WorkbookQuestion{});
    REQUIRE(whole);
    std::vector<std::string> typed, formulas;
    for (const BookCell& cell : sheet(*whole, "Givens").cells)
        if (cell.format == "[h]:mm")
            typed.push_back(fmt::format("{:.10g}{}", cell.number, cell.text));
    // 18 h, 6 h, 21 h, 12 h of 24.
    CHECK(typed.size() == 4);
    CHECK(typed[0] == "0.75");
    CHECK(typed[1].starts_with("0.25=("));
    CHECK(typed[2].starts_with("0.875=("));
    CHECK(typed[3] == "0.5");
    for (const BookCell& cell : sheet(*whole, "Lines").cells)
        if (cell.text.find("*24,") != std::string::npos)
            formulas.push_back(fmt::format("{:.10g}", cell.number));
    CHECK(formulas == std::vector<std::string>{"18", "12"});
    // 17.5 is no time of day there: that many days.
    const auto& rules = sheet(*whole, "Givens").rules;
    CHECK(std::any_of(rules.begin(), rules.end(),
                      [](const CellRule& rule) { return rule.low == "=-1" && rule.high == "=2"; }));
}

TEST_CASE("what a sheet cannot work out is held, with what it rests on") {
    const auto drawn = tests::priced_ok(
        "model \"Pull\"\nuse \"library/deep-draft\"\ngiven depth = 5 ft  \"depth\"\n"
        "draft : lbf = shank_draft(depth, 0.25 ft, 60 deg, each layer (9 ft, 100 lbf/ft^3, "
        "200 psf, 20 psf, 30 deg, 20 deg))  \"pull\"\n"
        "cost work : $/lbf = $1/lbf over draft\nprice \"Pull\" lump\n");
    WorkbookQuestion question;
    question.renew = "run it again";
    const auto made = ask(drawn, question);
    REQUIRE(made);
    const std::string pull = fmt::format("{:.10g}", drawn.value("draft"));
    CHECK(rows_of(*made, "Held") ==
          Rows{"Held values",
               "A sheet cannot work these out: it holds what the program made of the cells below "
               "each. When one of those changes, what rests on it is stale.",
               "To renew them: run it again", "value|what it is|when written|now|state", "",
               "shank_draft, for draft|rests on:|" + pull + "|" + pull + "|0",
               "depth|depth|5|5|0"});
}

TEST_CASE("how to read a workbook names each of its sheets, and whose lines are where") {
    const Workbook both = book("", true);
    const Rows rows = rows_of(both, "How to read this");
    CHECK(rows[1] == "Made from the job Bench, the model Rip, the season s. Every figure is a live "
                     "formula of that model.");
    const auto begins = [&](const std::string& text) {
        return std::any_of(rows.begin(), rows.end(),
                           [&](const std::string& row) { return row.starts_with(text); });
    };
    for (const BookSheet& one : both.sheets)
        if (one.name != "How to read this")
            CHECK_MESSAGE(begins(one.name + "|"), one.name);
    CHECK(begins("Lines 2|option: Deep"));
    for (const char* rule : {"yellow|", "red|", "names|", "no answer|", "stale|", "sources|"})
        CHECK(begins(rule));
    CHECK(rows.back().starts_with("Figures are estimates."));
}

} // namespace workbook_sheets_test
