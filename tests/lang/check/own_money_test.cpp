#include "lang/check/own_money.h"

#include <doctest/doctest.h>

#include <string>

#include "lang/units/number_text.h"
#include "tests/support/compile_text.h"

namespace own_money_test {

using namespace acre;
using lang::Code;
using tests::Choices;
using tests::compile_ok;
using tests::compile_text;
using tests::expect_diag;

namespace {

constexpr const char* dollars = "model \"M\"\ngiven wage = $38/h\nline : $ = wage * 2 h\n";
constexpr const char* own =
    "model \"M\"\nmoney AUD\ngiven wage = 38 AUD/h\nline : AUD = wage * 2 h\n";

Choices with_firm(std::string money, std::string model) {
    return {{{"m.rate", std::move(model)},
             {"kestrel.firm", "firm \"Kestrel\"\nmoney " + std::move(money) + "\n"}}};
}
std::string job(const std::string& rest = "") {
    return "job \"J\"\nmodel \"m\"\nfirm \"kestrel\"\n" + rest;
}
std::size_t count(const std::string& text, const Choices& choices) {
    const tests::Compilation c = compile_text(text, choices);
    std::size_t found = 0;
    for (const lang::Diagnostic& d : c.diagnostics.all())
        found += d.code == Code::U314 ? 1 : 0;
    return found;
}

} // namespace

TEST_CASE("a model in dollars is refused by a firm with other money, once") {
    const lang::Diagnostic d =
        expect_diag(job(), Code::U314, with_firm("AUD \"A$\" to $0.01", dollars));
    CHECK(d.title == "m.rate has figures in USD; the money of this firm is AUD");
    CHECK(d.helps.front().text.find("money AUD") != std::string::npos);
    CHECK(!d.helps.front().edit); // an edit would make Australian dollars of American ones
    CHECK(count(job(), with_firm("AUD \"A$\" to $0.01",
                                 std::string(dollars) + "given more = $2/h\n")) == 1);
}

TEST_CASE("figures in the firm's own money are read, by its code or its sign") {
    CHECK(count(job(), with_firm("AUD \"A$\" to $0.01", own)) == 0);
    CHECK(count(job("set wage = 41 AUD/h\n"), with_firm("AUD \"A$\" to $0.01", own)) == 0);
    CHECK(count(job("set wage = $41/h\n"), with_firm("AUD \"A$\" to $0.01", own)) == 1);
    // Where the firm's own sign is the dollar sign, it is a dollar of its own.
    CHECK(count(job("set wage = $41/h\n"), with_firm("AUD \"$\" to $0.01", own)) == 0);
    // In a model it is not: a copy whose figures were not set anew is told from one whose were.
    CHECK(
        count(job(), with_firm("AUD \"$\" to $0.01", "model \"M\"\nmoney AUD\ngiven wage = $38/h\n"
                                                     "given more = $2/h\n")) == 2);
    CHECK(count(job("set wage = 41 USD/h\n"), with_firm("AUD \"$\" to $0.01", own)) == 1);
    CHECK(count(job("set wage = \u20AC41/h\n"), with_firm("AUD \"$\" to $0.01", own)) == 1);
    CHECK(count(job("set wage = \u20AC0/h\n"), with_firm("AUD \"$\" to $0.01", own)) == 0);
    const tests::Compilation c = compile_ok(job(), with_firm("AUD \"A$\" to $0.01", own));
    CHECK((*c.sheet)->lines[(*c.sheet)->find("wage")].unit_text == "AUD/h");
    CHECK((*c.sheet)->units.money() == "AUD");
}

TEST_CASE("units of money are written as the firm's, of lines, functions and tables") {
    const tests::Compilation c = compile_ok(
        job(), with_firm("CHF \"Fr.\" to $0.05",
                         "model \"M\"\nmoney CHF\ngiven diesel : $/L = 2 CHF/L  \"d\"\n"
                         "define f (a : $/L) : $/L = a\n"
                         "table t (a : $) : CHF/h\n  0  1\n  2  3\nx : $/L = f(diesel)  \"x\"\n"
                         "cost c : $/L = x over 3 L\nprice \"P\" lump\n"));
    const lang::Sheet& sheet = **c.sheet;
    CHECK(sheet.lines[sheet.find("diesel")].unit_text == "CHF/L");
    CHECK(sheet.lines[sheet.find("x")].unit_text == "CHF/L");
    REQUIRE(sheet.functions.size() == 1);
    CHECK(sheet.functions[0].type_text == "CHF/L");
    CHECK(sheet.functions[0].parameter_texts == std::vector<std::string>{"CHF/L"});
    REQUIRE(sheet.tables.size() == 1);
    CHECK(sheet.tables[0].parameter_text == "CHF");
    CHECK(sheet.tables[0].result_text == "CHF/h");
}

TEST_CASE("a model without figures of money belongs to every firm") {
    const std::string open = "model \"M\"\ngiven wage : $/h\ngiven free = $0/h\n"
                             "line : $ = wage * 2 h\n"
                             "define twice (a : $) : $ = a * 2\n  known ours\n"
                             "  limit a $0 .. $9,000\n  example twice($2) = $4\n";
    CHECK(count(job("set wage = 41 CHF/h\n"), with_firm("CHF \"CHF\" to 0.05 CHF", open)) == 0);
    CHECK(count(job("set wage = 41 CHF/h\n"),
                with_firm("CHF \"CHF\" to 0.05 CHF", open + "pay : $ = line + $5\n")) == 1);
    CHECK(count(job("set wage = 41 CHF/h\n"),
                with_firm("CHF \"CHF\" to 0.05 CHF",
                          open + "table fee (a : h) : $\n  0  0\n  2  40\n")) == 1);
}

TEST_CASE("figures behind a unit of the model's own, and the rows of a table, are money too") {
    const std::string grand = "model \"M\"\nunit grand = 1,000 $\ngiven pay = 2 grand\n";
    CHECK(count(job(), with_firm("AUD \"A$\" to $0.01", grand)) == 1);
    const std::string fee = "model \"M\"\nmoney AUD\ntable fee (a : h) : step ";
    CHECK(count(job(), with_firm("AUD \"A$\" to $0.01", fee + "$\n  0  0\n  2  40\n")) == 1);
    CHECK(count(job(), with_firm("AUD \"A$\" to $0.01", fee + "$\n  0  0\n  2  0\n")) == 0);
    CHECK(count(job(), with_firm("AUD \"A$\" to $0.01", fee + "AUD\n  0  0\n  2  40\n")) == 0);
}

TEST_CASE(
    "units that stand by themselves are in some money: of a define, its parameters and lines") {
    const auto with = [](const std::string& statement) {
        return count("model \"M\"\n" + statement + "\nx : 1 = 2\n", {});
    };
    CHECK(with("define f (a : 1) : $/h = a * 0 $/h\n  known ours") == 0);
    CHECK(with("define f (a : 1) : CHF/h = a * 0 CHF/h\n  known ours") == 1);
    CHECK(with("define f (a : CHF/h) : 1 = a / a\n  known ours") == 1);
    CHECK(with("define f (a : 1) : 1 = b / b\n  b : CHF/h = a * 0 CHF/h\n  known ours") == 1);
    CHECK(with("y : CHF/h = x * 0 CHF/h") == 1);
    CHECK(with("cost c : CHF/h = 0 CHF/h over 1 h") == 1);
    CHECK(with("unit grand = 0 CHF") == 1);
    CHECK(with("table t (a : CHF) : 1\n  0 0\n  2 1") == 1);
}

TEST_CASE("season, job and model may name one firm, and not two") {
    const auto codes = [](const std::string& of_model, const std::string& of_season,
                          const std::string& of_job) {
        Choices choices;
        choices.files = {{"m.rate", "model \"M\"\n" + of_model + "given wage = $38/h\n"},
                         {"s.season", "season \"s\"\n" + of_season},
                         {"kestrel.firm", "firm \"Kestrel\"\nmoney USD \"$\" to $0.01\n"},
                         {"wren.firm", "firm \"Wren\"\nmoney USD \"$\" to $0.01\n"}};
        const tests::Compilation c =
            compile_text("job \"J\"\nmodel \"m\"\nseason \"s\"\n" + of_job, choices);
        std::string out;
        for (const lang::Diagnostic& d : c.diagnostics.all())
            if (d.severity() == lang::Severity::Error)
                out += std::string(lang::name_of(d.code)) + " " + d.title + "; ";
        return out;
    };
    const std::string kestrel = "firm \"kestrel\"\n", wren = "firm \"wren\"\n";
    CHECK(codes("", "", "") == "");
    CHECK(codes(kestrel, kestrel, kestrel) == "");
    CHECK(codes("", kestrel, wren) == "I612 the job is of two firms, \"kestrel\" and \"wren\"; ");
    CHECK(codes(wren, kestrel, "") == "I612 the job is of two firms, \"kestrel\" and \"wren\"; ");
    CHECK(codes(wren, "", wren) == "");
    // One that is not there is told as such, and is no second firm.
    const std::string lost = "firm \"nowhere\"\n";
    for (const std::string& said : {codes("", kestrel, lost), codes("", lost, kestrel)}) {
        CHECK(said.substr(0, 4) == "F701");
        CHECK(said.find("I612") == std::string::npos);
    }
}

TEST_CASE("without a firm the money is the dollar; a model by itself is in what it states") {
    CHECK(count("model \"M\"\ngiven wage = 38 CHF/h\n", {}) == 1);
    CHECK(count("model \"M\"\ngiven wage : CHF/h\n", {}) == 1);
    CHECK(count(dollars, {}) == 0);
    CHECK(count("model \"M\"\nmoney USD\ngiven wage = $38/h\n", {}) == 0);
    CHECK(count(own, {}) == 0);
    CHECK(count("job \"J\"\nmodel \"m\"\n", {{{"m.rate", own}}}) == 1);
}

TEST_CASE("amounts show the money of the job made last") {
    const lang::Currency before = lang::shown_money();
    lang::show_money({"AUD", "A$", 5});
    CHECK(lang::cents_text(-123450) == "-A$1,234.50");
    CHECK(lang::quantity_text(38.5, "AUD/h") == "A$38.50/h");
    CHECK(lang::quantity_text(38.5, "$/h") == "A$38.50/h");
    CHECK(lang::quantity_text(38.5, "AUD.h") == "38.5 AUD.h");
    lang::show_money({"JPY", "\u00A5", 100});
    CHECK(lang::cents_text(123400) == "\u00A51,234");
    CHECK(lang::money_text(1234.4) == "\u00A51,234");
    CHECK(lang::quantity_text(12.5, "\u00A5/L") == "\u00A512.5/L");
    lang::show_money({"NOK", "kr", 1});
    CHECK(lang::money_text(7) == "kr 7.00");
    lang::show_money(before);
}

} // namespace own_money_test
