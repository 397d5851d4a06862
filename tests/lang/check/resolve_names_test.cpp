#include <doctest/doctest.h>

#include <string>

#include "tests/support/resolve_text.h"

namespace resolve_names_test {

using namespace acre;
using tests::resolve_ok;
using tests::resolve_text;

namespace {

const std::string model = R"(model "Names"
noun tree
choice texture = fine | medium | coarse
given area = 80 ac
given soil : texture = medium
given method = full_field | tree_rows
given rate : $/h
cost fuel : $/h = rate over 8 h
event break = 0.01 1/h over 8 h costs $900
define twice (x : ft) : ft = x * 2
table burn (load : %) : gal/h
  20   8
  60  21
)";

// One line more, and what is reported about it.
struct Slip {
    std::string line;
    std::string codes;
    std::string title;
    std::string help; // or a note; empty: not looked at
};

bool mentions(const lang::Diagnostic& d, const std::string& text) {
    for (const lang::Help& help : d.helps)
        if (help.text.find(text) != std::string::npos)
            return true;
    for (const std::string& note : d.notes)
        if (note.find(text) != std::string::npos)
            return true;
    return text.empty();
}

void check_slips(const std::vector<Slip>& slips) {
    for (const Slip& slip : slips) {
        CAPTURE(slip.line);
        const auto out = resolve_text(model + slip.line + "\n");
        REQUIRE_MESSAGE(out.codes() == slip.codes, out.rendered());
        CHECK(out.diagnostics.all().front().title == slip.title);
        CHECK_MESSAGE(mentions(out.diagnostics.all().front(), slip.help), out.rendered());
    }
}

} // namespace

TEST_CASE("names in a formula are lines, wherever they are written") {
    struct Row {
        std::string formula, means;
    };
    const std::vector<Row> rows = {
        {"x : ac = area", "area"},
        {"x : ac = later + 1 ac\nlater : ac = area", "(later + 1)"},
        {"x : ac = area + 1 ac + 2 ac", "((area + 1) + 2)"},
        {"x : ac = area + (1 ac + 2 ac)", "(area + (1 + 2))"},
        {"x : ac = -area", "-area"},
        {"x : h = fuel.quantity", "fuel.quantity"},
        {"x : $ = fuel.amount + break.amount + break.money",
         "((fuel.amount + break.amount) + break.money)"},
        {"x : 1 = break", "break"},
        {"x : ac = min(area, 3 ac, 4 ac)", "min(area, 3, 4)"},
        {"x : ac = ceil(area, 1 ac)", "ceil(area, 1)"},
        {"x : 1 = round(2.5)", "round(2.5)"},
        {"x : ft = twice(3 ft)", "twice(3)"},
        {"x : gal/h = burn(30 %)", "burn(30)"},
        {"x : ac = when soil is fine then area otherwise 0 ac", "when((soil == fine), area, 0)"},
        {"x : ac = when soil is not fine then area otherwise 0 ac",
         "when((soil != fine), area, 0)"},
        {"x : ac = when soil == fine then area otherwise 0 ac", "when((soil == fine), area, 0)"},
        {"x : ac = when fine == soil then area otherwise 0 ac", "when((fine == soil), area, 0)"},
        {"x : texture = fine", "fine"},
        {"x : texture = when area > 3 ac then fine otherwise soil", "when((area > 3), fine, soil)"},
        {"x : 1 = when method is tree_rows then 1 otherwise 2",
         "when((method == tree_rows), 1, 2)"},
        {"x : ac = when (when area > 3 ac then soil otherwise fine_too) is fine then area "
         "otherwise 0 ac\nfine_too : texture = fine",
         "when((when((area > 3), soil, fine_too) == fine), area, 0)"},
        {"x : ac = when not (area > 3 ac and area < 5 ac or area == 7 ac) then area otherwise 0 ac",
         "when(not (((area > 3) and (area < 5)) or (area == 7)), area, 0)"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.formula);
        const auto out = resolve_ok(model + row.formula + "\n");
        CHECK(out.formula("x") == row.means);
    }
}

TEST_CASE("an option wins over a line of the same name only where its choice is expected") {
    const auto out = resolve_ok(model + "fine : ac = 2 ac\nx : ac = fine\ny : texture = fine\n");
    CHECK(out.formula("x") == "fine");
    CHECK(out.sheet.nodes[out.line("x").value].op == lang::Op::Line);
    CHECK(out.sheet.nodes[out.line("y").value].op == lang::Op::Choice);
}

TEST_CASE("a cost makes a rate, a quantity and an amount; an event a count, an amount and the "
          "money of one") {
    const auto out = resolve_ok(model);
    CHECK(out.formula("fuel") == "rate");
    CHECK(out.formula("fuel.quantity") == "8");
    CHECK(out.formula("fuel.amount") == "(fuel * fuel.quantity)");
    CHECK(out.line("fuel.quantity").unit_text == "h");
    CHECK(out.formula("break") == "(0.01 * 8)");
    CHECK(out.formula("break.amount") == "(break * break.money)");
    CHECK(out.formula("break.money") == "900");
    CHECK(out.sheet.costs.size() == 1);
    CHECK(out.sheet.events.size() == 1);
    CHECK(out.sheet.lines[out.sheet.events[0].money].name == "break.money");
    CHECK(out.formula("cost.total") == "sum(fuel.amount)");
}

TEST_CASE("a quantity has the unit of its formula") {
    struct Row {
        std::string quantity, unit;
    };
    const std::vector<Row> rows = {
        {"8 h", "h"},
        {"area", "ac"},
        {"area * 2", "ac"},
        {"area / (2 ac/h)", "h"},
        {"max(area, 3 ac)", "ac"},
        {"area + 1 ha", "ac"},
        {"12 tree", "tree"},
        {"sqrt(area * area)", "ac"},
        {"(area ^ 2) / area", "ac"},
        {"b.quantity * 2", "h"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.quantity);
        const auto out =
            resolve_ok("model \"q\"\nnoun tree\ngiven area = 80 ac\ncost a : $/h = $1/h over " +
                       row.quantity + "\ncost b : $/h = $1/h over 9 h\n");
        CHECK(out.line("a.quantity").unit_text == row.unit);
        CHECK(out.line("a.quantity").type.kind == lang::Type::Kind::Number);
    }
}

TEST_CASE("quantities that rest on each other end, in a loop as well") {
    std::string text = "model \"q\"\n";
    for (int i = 0; i < 3'000; ++i)
        text += "cost c" + std::to_string(i) + " : $/h = $1/h over c" + std::to_string(i + 1) +
                ".quantity\n";
    CHECK(resolve_ok(text + "cost c3000 : $/h = $1/h over 3 h\n").line("c0.quantity").unit_text ==
          "h");
    CHECK(resolve_ok(text + "cost c3000 : $/h = $1/h over c0.quantity\n")
              .line("c0.quantity")
              .type.kind == lang::Type::Kind::Poison);
}

TEST_CASE("a name that means nothing names the near one, and the line it stands on") {
    check_slips({
        {"x : ac = aera", "N201", "no line or given named `aera`", "`area` (line 4)"},
        {"x : h = fuel.quantit", "N201", "`fuel` has no `quantit`", "fuel.quantity"},
        {"x : h = crawler.fuel", "N201", "no used model is called `crawler` here",
         "use \"crawler\""},
        {"x : ac = fine", "N201", "no line or given named `fine`", "goes after `is`"},
        {"x : ac = texture", "N201", "no line or given named `texture`", "goes after a colon"},
        {"x : ac = ac", "N201", "no line or given named `ac`", "1 ac"},
        {"correlate area, aera 50 %", "N201", "no given named `aera`", "`area`"},
        {"correlate area, fuel 50 %", "I606", "`fuel` is computed; only givens can be correlated",
         ""},
    });
}

TEST_CASE("functions and values are not taken for each other") {
    check_slips({
        {"x : ft = twice", "N211", "`twice` is a function, not a value", "twice(x)"},
        {"x : gal/h = burn", "N211", "`burn` is a table, not a value", "burn(load)"},
        {"x : ft = sqrt", "N211", "`sqrt` is a function, not a value", "sqrt(a)"},
        {"x : ft = area(2)", "N211", "`area` is a value, not a function", "area * (…)"},
        {"x : ft = twise(2 ft)", "N205", "no function or table named `twise`",
         "twice(x : ft) : ft"},
        {"x : ft = sqrtt(2)", "N205", "no function or table named `sqrtt`", "sqrt(a)"},
        {"x : ft = twice(2 ft, 3 ft)", "N206", "`twice` takes 1 value, 2 given",
         "twice(x : ft) : ft"},
        {"x : ft = twice()", "N206", "`twice` takes 1 value, none given", "twice(x : ft) : ft"},
        {"x : gal/h = burn(1 %, 2 %)", "N206", "`burn` takes 1 value, 2 given",
         "burn(load : %) : gal/h"},
        {"x : ft = min(2 ft)", "N206", "`min` takes 2 values or more, 1 given", "min(a, b, …)"},
        {"x : ft = ceil(2 ft, 3 ft, 4 ft)", "N206", "`ceil` takes 1 or 2 values, 3 given",
         "ceil(a, step)"},
    });
}

TEST_CASE("options are those of their choice") {
    check_slips({
        {"x : ac = when soil is fnie then area otherwise area", "N204",
         "`fnie` is not a choice of `texture`", "write  fine"},
        {"x : ac = when method is fine then area otherwise area", "N204",
         "`fine` is not a choice of `method`", "`full_field` and `tree_rows`"},
        {"x : texture = sandy", "N204", "`sandy` is not a choice of `texture`",
         "`fine`, `medium` and `coarse`"},
        {"given y : texture = sandy", "N204", "`sandy` is not a choice of `texture`", ""},
        {"x : ac = when area is fine then area otherwise area", "U309",
         "`is` needs a choice, and `area` is not one", ""},
    });
}

TEST_CASE(
    "a unit that does not exist is told once, with near names and how to count something new") {
    check_slips({
        {"x : acer = 3 acer\ny : acer = 4 acer", "N203", "no unit named `acer`", "noun acer"},
        {"x : ac = 3 treee/ac", "N203", "no unit named `treee`", "`tree`"},
        {"given row_width = 22 ft\nx : ac/ft = 8 ac/row_width", "N203", "no unit named `row_width`",
         "put spaces around `/`"},
        {"given a = 1 becuase \"b\"", "N203", "no unit named `becuase`", "`because`"},
        {"x : $/treee = $3/tree", "N203", "no unit named `treee`", "`tree`"},
        {"given z = area * 2", "S105", "the unit of `z` is missing", "given z : UNIT"},
    });
    const auto out = resolve_text("model \"m\"\nx : $/acer = 3\n");
    CHECK(out.sources->text(out.diagnostics.all().front().primary.span) == "acer");
    const auto dollar = resolve_text("model \"m\"\nx : 1 = $3/acer\n");
    CHECK(dollar.sources->text(dollar.diagnostics.all().front().primary.span) == "acer");
}

TEST_CASE("a unit that stands apart from its number of money is put to it, and nothing else is") {
    const auto help = [](const std::string& formula) {
        const auto out = resolve_text("model \"m\"\nwage : $/h = " + formula + "\n");
        for (const lang::Help& one : out.diagnostics.all().front().helps)
            if (one.text.starts_with("write  $"))
                return one.text;
        return std::string();
    };
    CHECK(help("$38 / h") == "write  $38/h");
    CHECK(help("$1,038.50 / h") == "write  $1,038.50/h");
    CHECK(help("2 * $38 / h") == "write  $38/h");
    CHECK(help("$38 * h") == "");
    CHECK(help("$38 - h") == "");
    CHECK(help("38 / h") == "");
    CHECK(help("h / $38") == "");
    CHECK(help("($38) / h") == "");
}

TEST_CASE("a name is defined once") {
    check_slips({
        {"area : ac = 3 ac", "N202", "`area` is defined twice", ""},
        {"given fuel = 3 ac", "N202", "`fuel` is defined twice", ""},
        {"noun tree", "N202", "`tree` is declared twice", ""},
        {"noun ac", "N202", "`ac` is already a unit", ""},
        {"unit tree = 3 ft", "N202", "`tree` is declared twice", ""},
        {"unit bin = 3 ft\nunit bin = 3 ft", "N202", "the unit `bin` is defined twice", ""},
        {"choice texture = fine | coarse", "N202", "the choice `texture` is defined twice", ""},
        {"choice c = fine | fine", "N202", "`fine` appears twice in the choice `c`", ""},
        {"given q = a | b | a", "N202", "`a` appears twice in the choice `q`", ""},
        {"define twice (x : ft) : ft = x", "N202", "`twice` is defined twice", ""},
        {"define sqrt (x : ft) : ft = x", "N202", "`sqrt` is a built-in function", ""},
        {"define g (x : ft, x : h) : ft = 1 ft", "N202", "`x` appears twice in the function `g`",
         ""},
        {"table twice (x : ft) : ft\n  1 2\n  2 3", "N202", "`twice` is defined twice", ""},
    });
    const auto out = resolve_text(model + "area : ac = 3 ac\n");
    const lang::Diagnostic& d = out.diagnostics.all().front();
    REQUIRE(d.others.size() == 1);
    CHECK(out.sources->file(0).position(d.others[0].span.begin).line == 4);
}

TEST_CASE("so many kinds of things are counted, and no more") {
    std::string text = "model \"m\"\n";
    for (std::size_t i = 0; i < lang::max_bases - lang::first_noun; ++i)
        text += "noun n" + std::to_string(i) + "\n";
    CHECK(resolve_text(text).codes() == "");
    const auto out = resolve_text(text + "noun last\nx : last = 3 last\n");
    REQUIRE(out.codes() == "N209");
    CHECK(out.diagnostics.all()[0].title == "too many nouns (limit 22)");
}

TEST_CASE("one slip is told once: a statement that cannot be read takes its users with it") {
    const auto out = resolve_text(
        "model \"m\"\ngiven speed = 3 mi/h mi/h\nx : mi/h = speed * 2\ny : mi/h = sped * 2\n");
    CHECK(out.codes().find("N201") == out.codes().rfind("N201")); // of `sped`, not of `speed`
    CHECK(out.codes().front() == 'S');
}

} // namespace resolve_names_test
