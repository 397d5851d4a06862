// A `set` with a unit of its own, and names with letters that no name has.
#include <doctest/doctest.h>

#include <string>

#include "tests/support/syntax_cases.h"

namespace set_habits_test {

using namespace acre;
using tests::parse_text;

namespace {

lang::Diagnostic first(const std::string& text, lang::FileKind kind) {
    const tests::Parsed p = parse_text(text, kind);
    REQUIRE(p.diagnostics.has_errors());
    return p.diagnostics.all().front();
}
std::string mended(const std::string& text) {
    const lang::Diagnostic d = first(text, lang::FileKind::Job);
    REQUIRE(!d.helps.empty());
    REQUIRE(d.helps.front().edit.has_value());
    const lang::Edit& edit = *d.helps.front().edit;
    std::string out = text;
    return out.replace(edit.span.begin, edit.span.end - edit.span.begin, edit.replacement);
}

} // namespace

TEST_CASE("a unit behind the name of a set goes to its value") {
    const std::string head = "job \"j\"\n";
    CHECK(mended(head + "set depth : ft = 5\n") == head + "set depth = 5 ft\n");
    CHECK(mended(head + "set depth : ft = 5 ft\n") == head + "set depth = 5 ft\n");
    CHECK(mended(head + "set depth : ft = 5  because \"x\"\n") ==
          head + "set depth = 5 ft  because \"x\"\n");
    CHECK(mended(head + "set soil : texture = fine\n") == head + "set soil = fine\n");
    CHECK(mended(head + "set passes : 1 = 2\n") == head + "set passes = 2\n");
    CHECK(mended(head + "set depth : 5 ft\n") == head + "set depth = 5 ft\n");
}

TEST_CASE("a letter that no name has is shown where it stands") {
    const lang::Diagnostic d = first("job \"j\"\nblock s\u00FCd \"South\"\n", lang::FileKind::Job);
    CHECK(d.title == "unknown sign `\u00FC`");
    CHECK(d.primary.span.begin == 15);
    CHECK(first("model \"m\"\nh\u00F6he : m = 3 m\n", lang::FileKind::Model).title ==
          "unknown sign `\u00F6`");
}

TEST_CASE("a table without the colon before its unit is told to have one") {
    const lang::Diagnostic d =
        first("model \"m\"\ntable t (a : 1) step ft\n  0 1\n  1 2\n", lang::FileKind::Model);
    CHECK(d.title == "a unit is missing after `)`");
}

} // namespace set_habits_test
