#include <doctest/doctest.h>

#include <string>

#include "lang/syntax/signs.h"
#include "lang/syntax/tidy.h"
#include "tests/support/parse_text.h"

namespace firm_statements_test {

using namespace acre;
using lang::FileKind;
using tests::parse_text;

namespace {

std::string said(const std::string& money) {
    const tests::Parsed p = parse_text("firm \"F\"\nmoney " + money + "\n", FileKind::Firm);
    return p.diagnostics.all().empty()
               ? std::string()
               : std::string(lang::name_of(p.diagnostics.all().front().code));
}

} // namespace

TEST_CASE("the money of a firm is a code, a sign and a step") {
    for (const char* right : {"USD \"$\" to $0.01", "AUD \"A$\" to $0.05", "AUD \"$\" to 0.01 AUD",
                              "CHF \"CHF\" to 0.05", "EUR \"\u20AC\" to \u20AC0.01",
                              "JPY \"\u00A5\" to \u00A51", "NOK \"kr\" to 1", "BRL \"R$\" to $0.01",
                              "INR \"\u20B9\" to 1", "PLN \"z\u0142\" to 0.01"}) {
        CAPTURE(right);
        CHECK(said(right).empty());
    }
    for (const char* wrong :
         {"US \"$\" to $0.01", "usd \"$\" to $0.01", "XYZ \"$\" to $0.01", "USD \"$\" to $0",
          "USD \"$\" to 0.001", "USD \"$\" to 0.015", "USD \"\u20AC\" to $0.01",
          "EUR \"$\" to $0.01", "USD \"\" to $0.01", "USD \"<b>\" to $0.01", "USD \"=1\" to $0.01",
          "USD \" $\" to $0.01", "USD \"dollar\" to $0.01", "GBP \"\u00A5\" to 1"}) {
        CAPTURE(wrong);
        CHECK(said(wrong) == "S125");
    }
    CHECK(said("USD \"$\"") == "S103");
    CHECK(said("USD to $0.01") == "S103");
    CHECK(said("USD \"$\" to $0.01\nmoney AUD \"A$\" to $0.01") == "S116");
}

TEST_CASE("no sign of money is markup, an escape or the start of a formula") {
    for (const char c : std::string("<>&\"'=+-@\t \x1b{}0123456789,;|\\/%#\x7f")) {
        CAPTURE(c);
        CHECK(!lang::may_be_sign_of_money(std::string(1, c)));
        CHECK(!lang::may_be_sign_of_money(std::string("A") + c));
    }
    CHECK(!lang::may_be_sign_of_money("\u202E$"));
    CHECK(lang::may_be_sign_of_money("Cr.$")); // four, and not one more
    CHECK(!lang::may_be_sign_of_money("Cr.$a"));
    CHECK(!lang::may_be_sign_of_money(""));
}

TEST_CASE("words of a firm stand once, and the file has one layout") {
    const std::string text = "# ours\nfirm   \"Kestrel\"\nmoney USD \"$\"   to $0.01\n\n"
                             ": acres=\"18 \"\n:   phone_number =   \"none\"  # yet\n";
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const auto tidied = lang::tidy(sources, sources.add("f", text), FileKind::Firm, diagnostics);
    REQUIRE(tidied.has_value());
    CHECK(*tidied == "# ours\nfirm  \"Kestrel\"\nmoney USD \"$\" to $0.01\n\n"
                     ": acres        = \"18 \"\n: phone_number = \"none\"  # yet\n");
    CHECK(parse_text(*tidied, FileKind::Firm).dump() == parse_text(text, FileKind::Firm).dump());
    for (const char* wrong : {": a = \"1\"\n: a = \"2\"", ": name = \"other\""})
        CHECK(parse_text("firm \"F\"\n" + std::string(wrong) + "\n", FileKind::Firm)
                  .diagnostics.all()
                  .front()
                  .code == lang::Code::S116);
}

TEST_CASE("firm and money stay names") {
    for (const char* line : {"choice footing = firm | soft", "money : $ = 2 h * $3/h",
                             "given firm = 3 ft", "define f (money : $) : $ = money * 2"}) {
        CAPTURE(line);
        CHECK(!parse_text("model \"m\"\n" + std::string(line) + "\n").diagnostics.has_errors());
    }
}

TEST_CASE("a job has words for its quote and notes for its crew") {
    const tests::Parsed job = parse_text("job \"J\"\nmodel \"m\"\n: address = \"12 Weir Road\"\n"
                                         "note \"Second gate\"\nnote \"Old well\"\n",
                                         FileKind::Job);
    CHECK(job.diagnostics.all().empty());
    const std::string again = job.dump();
    for (const char* line :
         {": address = \"12 Weir Road\"", "note \"Second gate\"", "note \"Old well\""})
        CHECK_MESSAGE(again.find(line) != std::string::npos, again);
    for (const char* wrong : {": title = \"T\"", ": for = \"T\"", ": start = \"T\"",
                              ": address = \"A\"\n: address = \"B\""}) {
        CAPTURE(wrong);
        const tests::Parsed p =
            parse_text("job \"J\"\nmodel \"m\"\n" + std::string(wrong) + "\n", FileKind::Job);
        REQUIRE(p.diagnostics.all().size() == 1);
        CHECK(lang::name_of(p.diagnostics.all().front().code) == "S116");
    }
    for (const FileKind other : {FileKind::Season, FileKind::Values})
        CHECK(!parse_text((other == FileKind::Season ? "season" : "values") +
                              std::string(" \"S\"\n: address = \"A\"\n"),
                          other)
                   .diagnostics.all()
                   .empty());
}

} // namespace firm_statements_test
