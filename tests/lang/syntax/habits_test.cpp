// What is written as elsewhere is mended where it stands; a guess is not made.
#include <doctest/doctest.h>

#include <string>

#include "lang/syntax/signs.h"
#include "tests/support/syntax_cases.h"

namespace habits_test {

using namespace acre;
using tests::parse_text;

namespace {

struct Row {
    const char* text;
    const char* mended; // by the first edit; empty: there is none
};

std::string first_edit(const std::string& whole, lang::FileKind kind) {
    const tests::Parsed p = parse_text(whole, kind);
    REQUIRE(p.diagnostics.has_errors());
    for (const lang::Help& help : p.diagnostics.all().front().helps)
        if (help.edit) {
            std::string out = whole;
            const lang::Span span = help.edit->span;
            return out.replace(span.begin, span.end - span.begin, help.edit->replacement);
        }
    return "";
}

std::string first_help(const std::string& whole, lang::FileKind kind) {
    const tests::Parsed p = parse_text(whole, kind);
    REQUIRE(p.diagnostics.has_errors());
    const auto& helps = p.diagnostics.all().front().helps;
    return helps.empty() ? "" : helps.front().text;
}

void check(const char* head, lang::FileKind kind, std::initializer_list<Row> rows) {
    for (const Row& row : rows) {
        CAPTURE(std::string(row.text));
        const std::string mended = row.mended[0] == 0 ? "" : head + std::string(row.mended) + "\n";
        CHECK(first_edit(head + std::string(row.text) + "\n", kind) == mended);
        if (!mended.empty())
            CHECK(!parse_text(mended, kind).diagnostics.has_errors());
    }
}

} // namespace

TEST_CASE("a mended statement is written out where it is short") {
    // `set a :` and a value: the whole in up to 69 letters, else the sign alone.
    const auto help = [](std::size_t letters) {
        const std::string value(letters, '1');
        const tests::Parsed p =
            parse_text("job \"j\"\nmodel \"m\"\nset a : " + value + "\n", lang::FileKind::Job);
        REQUIRE(p.diagnostics.has_errors());
        REQUIRE(p.diagnostics.all().front().helps.size() == 1);
        return p.diagnostics.all().front().helps[0].text;
    };
    // "set a " and " 1…": seven letters beside the figures.
    CHECK(help(62) == "write  set a = " + std::string(62, '1'));
    CHECK(help(63) == "write  =");
}

TEST_CASE("numbers and units of other habits") {
    check("model \"m\"\n", lang::FileKind::Model,
          {{"given a = 6 500 ft", "given a = 6,500 ft"},
           {"given a = $1 640 000", "given a = $1,640,000"},
           {"given a = $6\u00A0500", "given a = $6,500"},
           {"given a = $6.500", "given a = $6,500"},
           {"given a = $6.500,25", "given a = $6,500.25"},
           {"given a = 6 ft 6 in", "given a = 6.5 ft"},
           {"given a = 6 ft 7 in", "given a = (6 ft + 7 in)"},
           {"given a = 2 h 30 min", "given a = 2.5 h"},
           {"given a = 7'", "given a = 7 ft"},
           {"given a = 6'6\"  \"label\"", "given a = 6.5 ft  \"label\""},
           {"given a = 6\u20196\u201D", "given a = 6.5 ft"},
           {"given a = 78\"  \"label\"", "given a = 78 in  \"label\""},
           {"given a = 6 1/2 ft", "given a = 6.5 ft"},
           {"given a = 6\u00BD ft", "given a = 6.5 ft"},
           {"given a = 6 1/3 ft", ""},
           {"given a = $38 per h", "given a = $38/h"},
           {"given a = 28 gal per h", "given a = 28 gal/h"},
           {"given a = USD 38/h", "given a = $38/h"},
           {"given a = $ 38/h", "given a = $38/h"},
           {"given a = \u20AC 38/h", "given a = \u20AC38/h"},
           {"given a = AUD 38/h", "given a = 38 AUD/h"},
           {"given a = $6.5k", "given a = $6,500"},
           {"given a = $1.64M", "given a = $1,640,000"},
           {"given a = 15. %", "given a = 15 %"},
           {"given a = (.85)", "given a = (0.85)"}});
}

TEST_CASE("quotes, comments and signs of other habits") {
    check("model \"m\"\n", lang::FileKind::Model,
          {{"given a = 7 ft \u201Cfrom pull to pull\u201D", "given a = 7 ft \"from pull to pull\""},
           {"given a = 7 ft \u201Clot #3\u201D", "given a = 7 ft \"lot #3\""},
           {"given a = 7 ft 'wide'", "given a = 7 ft \"wide\""},
           {"given a = 7 ft \u201Cwide", ""},
           {"given a = 7 ft // wide", "given a = 7 ft # wide"},
           {"part \"x\" // wide", "part \"x\" # wide"},
           {"given a => 7 ft", "given a = 7 ft"},
           {"given a := 7 ft", "given a = 7 ft"},
           {"given a 7 ft", "given a = 7 ft"},
           {"require 7 ft => 6 ft \"x\"", ""},
           {"given a = 7 ft \"wide", "given a = 7 ft \"wide\""},
           {"given a = 7 ft \"wide within 3 ft .. 8 ft", ""},
           {"b : ft = 2 * (7 ft - 1 ft", "b : ft = 2 * (7 ft - 1 ft)"},
           {"b : ft = (7 ft - 1 ft * 2", ""}});
}

TEST_CASE("what gives a value in a job, and its date") {
    check("job \"j\"\n", lang::FileKind::Job,
          {{"set a : 25 mi", "set a = 25 mi"},
           {"set a 25 mi", "set a = 25 mi"},
           {"set a == 25 mi", "set a = 25 mi"},
           {"date 03/14/2027", "date 2027-03-14"},
           {"date 3/14/27", "date 2027-03-14"},
           {"date 14.3.2027", "date 2027-03-14"},
           {"date 3/3/2027", "date 2027-03-03"},
           {"date 3/4/2027", ""},
           {"date March 14, 2027", "date 2027-03-14"},
           {"date 14 Mar 2027", "date 2027-03-14"},
           {"date Sunday, March 14, 2027", "date 2027-03-14"},
           {"date 14th of March 2027", "date 2027-03-14"},
           {"date 14 March 2027 maybe", "date 2027-03-14"}, // the first month is meant
           {"date 31 Dec 27", "date 2027-12-31"},
           {"date 12/13/2027", "date 2027-12-13"},
           {"date 13/12/2027", "date 2027-12-13"},
           {"date 2027 March 14", ""},
           {"date 29 Feb 2027", ""},
           {"date 2027-3-14", "date 2027-03-14"},
           {"date 2027/03/14", "date 2027-03-14"},
           {"date 2/30/2027", ""},
           {"date soon", ""}});
}

TEST_CASE("a value in a job without its word, and no line of a model") {
    check("job \"j\"\n", lang::FileKind::Job,
          {{"depth = 6 ft", "set depth = 6 ft"},
           {"site.miles = 34 mi", "set site.miles = 34 mi"},
           {"minimum $7,500", ""},
           {"sett depth = 6 ft", "set depth = 6 ft"}});
    check("season \"2027\"\n", lang::FileKind::Season,
          {{"diesel = $4.20/gal", "set diesel = $4.20/gal"}});
    CHECK(first_help("job \"j\"\ndepth = 6 ft\n", lang::FileKind::Job) ==
          "write  set depth = 6 ft");
    CHECK(first_help("job \"j\"\nminimum $7,500\n", lang::FileKind::Job) ==
          "to give a value, write  set NAME = VALUE");
    CHECK(first_help("job \"j\"\nset depth: 6 ft\n", lang::FileKind::Job) ==
          "write  set depth = 6 ft");
    const std::string longest(70 - 8, 'd'); // with " = 34 mi"
    CHECK(first_help("job \"j\"\n" + longest + " = 34 mi\n", lang::FileKind::Job) ==
          "write  set " + longest + " = 34 mi");
    CHECK(first_help("job \"j\"\n" + longest + "d = 34 mi\n", lang::FileKind::Job) ==
          "write  set NAME = VALUE");
}

TEST_CASE("ranges of other habits") {
    check("job \"j\"\n", lang::FileKind::Job,
          {{"set a = 6 ft \u00B1 1 ft", "set a = 6 ft swing 5 ft .. 7 ft"},
           {"set a = 6 ft +/- 0.5 ft because \"it\"",
            "set a = 6 ft swing 5.5 ft .. 6.5 ft because \"it\""},
           {"set a = $4.50/gal +/- 10 %", "set a = $4.50/gal swing 90 % .. 110 % of it"},
           {"set a = $4.50/gal \u00B1 $0.25/gal", "set a = $4.50/gal swing $4.25/gal .. $4.75/gal"},
           {"set a = 90 % \u00B1 5 %", "set a = 90 % swing 85 % .. 95 %"},
           {"set a = 6 ft \u00B1 3 in", ""},
           {"set a = 6 ft \u00B1 $1", ""},
           {"set a = 6 ft \u00B1", ""},
           {"set a = 6 ft swing 5 ft to 7 ft", "set a = 6 ft swing 5 ft .. 7 ft"},
           {"set a = 6 ft swing 5 ft - 7 ft", "set a = 6 ft swing 5 ft .. 7 ft"},
           {"set a = 6 ft swing pert 5 ft \u2013 7 ft", "set a = 6 ft swing pert 5 ft .. 7 ft"},
           {"set a = 6 ft swing 1 ft", ""},
           {"set a = 7 ft - 1 ft swing 1 ft", ""}, // the minus is of the value
           {"set a = 5 ft .. 7 ft", ""}});
    check("model \"m\"\n", lang::FileKind::Model,
          {{"given a = 6 ft  \"a\"  within 5 ft to 7 ft",
            "given a = 6 ft  \"a\"  within 5 ft .. 7 ft"},
           {"given a = 6 ft \u00B1 1 ft  \"a\"", "given a = 6 ft swing 5 ft .. 7 ft  \"a\""},
           {"given a = 6 500.25 ft", "given a = 6,500.25 ft"},
           {"given a = $6.500 because \"b\"", "given a = $6,500 because \"b\""},
           {"given a = 3 \"b", "given a = 3 \"b\""},
           {"given a = 3 \"b, c", ""}}); // where it ends nobody can tell
    const struct {
        const char *value, *help;
    } rows[] = {{"5 ft .. 7 ft", "5 ft .. 7 ft"},     {"5..7 ft", "5 ft .. 7 ft"},
                {"5 ft to 7 ft", "5 ft .. 7 ft"},     {"5 to 7", "5 .. 7"},
                {"$4 .. $5/gal", "$4/gal .. $5/gal"}, {"80 \u2013 90 %", "80 % .. 90 %"}};
    for (const auto& row : rows)
        CHECK(first_help(std::string("job \"j\"\nset a = ") + row.value + "\n",
                         lang::FileKind::Job) ==
              std::string("write the one figure, and behind it how far it may go:  swing ") +
                  row.help);
    CHECK(first_help("job \"j\"\nset a = b .. 7 ft\n", lang::FileKind::Job) == "");
}

TEST_CASE("rounding of other habits") {
    check("model \"m\"\ncost c : $ = $3 over 1\nprice \"P\" lump\n", lang::FileKind::Model,
          {{"  round down to $5", "  round to $5"},
           {"  round to nearest $5", "  round to $5"},
           {"  round nearest $5", "  round to $5"},
           {"  round nearest to $5", "  round to $5"},
           {"  round up $5", "  round up to $5"},
           {"  round down $5", ""}});
}

TEST_CASE("a text is cut between two characters, and only where it is long") {
    const std::string forty(40, 'a');
    CHECK(lang::shortened(forty) == forty);
    CHECK(lang::shortened(forty + "b") == std::string(37, 'a') + "…");
    CHECK(lang::shortened(std::string(36, 'a') + "\u00E9\u00E9\u00E9") ==
          std::string(36, 'a') + "…"); // the first of them would be cut
}

TEST_CASE("what is right stays so") {
    for (const char* text : {"given a = $4.355/gal", "given a = $0.125", "given a = $6,500",
                             "given a = 6 ft \"label\"", "given a = 1,640,000"}) {
        CAPTURE(std::string(text));
        CHECK(!parse_text("model \"m\"\n" + std::string(text) + "\n").diagnostics.has_errors());
    }
}

} // namespace habits_test
