// Which physical lines make one statement.
#include <doctest/doctest.h>

#include "lang/syntax/layout.h"
#include "tests/support/parse_text.h"

namespace layout_test {

using namespace acre;
using tests::parse_text;
using tests::tree_of;

namespace {

std::string first_error(std::string text) {
    const tests::Parsed p = parse_text(std::move(text));
    if (p.diagnostics.all().empty())
        return "";
    const lang::Diagnostic& d = p.diagnostics.all().front();
    const lang::Position at = p.position(d);
    return std::string(lang::name_of(d.code)) + " " + std::to_string(at.line) + ":" +
           std::to_string(at.column);
}

} // namespace

TEST_CASE("a deeper line continues a statement without inner lines") {
    CHECK(tree_of("x : 1 = a\n  + b\n     + c\n  \"label\"\ny : 1 = d") ==
          "x : [1] = ((a + b) + c) \"label\"\ny : [1] = d\n");
    CHECK(tree_of("part \"A\"\n  x : 1 = a +\n      b\n  y : 1 = c") ==
          "part \"A\"\n  x : [1] = (a + b)\n  y : [1] = c\n");
}

TEST_CASE("comments, blank lines and blanks at the end mean nothing") {
    CHECK(tree_of("# first\n\nx : 1 = a # tail\n\n   # in between\n  + b   \n\n# last") ==
          "x : [1] = (a + b)\n");
    CHECK(tree_of("x : 1 = a \"not # a comment\" # but this") ==
          "x : [1] = a \"not # a comment\"\n");
    CHECK(tree_of("part \"A\"\n# at the margin\n  x : 1 = a\n        # deep\n  y : 1 = b") ==
          "part \"A\"\n  x : [1] = a\n  y : [1] = b\n");
}

TEST_CASE("line ends of both kinds, a byte order mark, and a last line without an end") {
    const std::string dump = "model \"m\"\npart \"A\"\n  x : [1] = (a + b)\n";
    CHECK(parse_text("model \"m\"\npart \"A\"\n  x : 1 = a\n    + b").dump() == dump);
    CHECK(parse_text("model \"m\"\r\npart \"A\"\r\n  x : 1 = a\r\n    + b\r\n").dump() == dump);
    CHECK(parse_text("\xEF\xBB\xBFmodel \"m\"\npart \"A\"\n  x : 1 = a\n    + b\n").dump() == dump);
    CHECK(parse_text("\n\n  \nmodel \"m\"\npart \"A\"\n  x : 1 = a\n    + b\n").dump() == dump);
}

TEST_CASE("a tab counts to the next multiple of eight") {
    CHECK(tree_of("part \"A\"\n\tx : 1 = a\n        y : 1 = b\n    \tz : 1 = c") ==
          "part \"A\"\n  x : [1] = a\n  y : [1] = b\n  z : [1] = c\n");
}

TEST_CASE("lines of one part begin in one column") {
    CHECK(first_error("model \"m\"\npart \"A\"\n    x : 1 = a\n  y : 1 = b\n") == "S115 4:3");
    CHECK(first_error("model \"m\"\n x : 1 = a\n") == "S115 2:2");
    CHECK(first_error("  model \"m\"\nx : 1 = a\n") == "S115 1:3");
    // the first shift is told, not every line after it
    const tests::Parsed p =
        parse_text("model \"m\"\npart \"A\"\n    x : 1 = a\n  y : 1 = b\n  z : 1 = c\n");
    CHECK(p.diagnostics.error_count() == 1);
    CHECK(p.dump() == "model \"m\"\npart \"A\"\n  x : [1] = a\n  y : [1] = b\n  z : [1] = c\n");
}

TEST_CASE("a text that is not UTF-8 is told with the place of the byte") {
    for (const auto& [text, title] : std::initializer_list<std::pair<std::string, std::string>>{
             {"model \"a\xFFz\"\n", "the file is not UTF-8 text: byte 0xFF at offset 8"},
             {"model \"\xC3\"\n", "the file is not UTF-8 text: byte 0xC3 at offset 7"}, // cut short
             {"model \"\xC0\xAF\"\n",
              "the file is not UTF-8 text: byte 0xC0 at offset 7"}, // longer than needed
             {"model \"\xED\xA0\x80\"\n",
              "the file is not UTF-8 text: byte 0xED at offset 7"}, // half of a pair
             {"model \"\xF4\x90\x80\x80\"\n",
              "the file is not UTF-8 text: byte 0xF4 at offset 7"}, // past the last code point
             {"model \"\xE2\x82", "the file is not UTF-8 text: byte 0xE2 at offset 7"},
         }) {
        const tests::Parsed p = parse_text(text);
        REQUIRE(p.diagnostics.error_count() == 1);
        CHECK(p.diagnostics.all().front().code == lang::Code::F703);
        CHECK(p.diagnostics.all().front().title == title);
        CHECK(p.module.statements.empty());
    }
    CHECK(parse_text("model \"\u00E9 \u20AC \U0001F69C\"\n").dump() ==
          "model \"\u00E9 \u20AC \U0001F69C\"\n");
}

TEST_CASE("control characters are no text, and their line is not read further") {
    using namespace std::string_literals;
    CHECK(first_error("model \"m\"\nx : 1 = \0 3\n"s) == "S100 2:9");
    CHECK(first_error("model \"m\"\npart \"a\x1B[31m\"\n") == "S100 2:8"); // would color a terminal
    CHECK(first_error("model \"m\"\npart \"a\x7F\"\n") == "S100 2:8");     // delete
    CHECK(first_error("model \"m\"\npart \"a\u009B31m\"\n") ==
          "S100 2:8"); // the same escape in one character
    CHECK(first_error("model \"m\"\npart \"a\u202Eb\"\n") ==
          "S100 2:8");                                          // turns the direction of writing
    CHECK(first_error("model \"m\"\n# a\x01\n") == "S100 2:4"); // in a comment too
    CHECK(first_error("model \"m\"\npart \"a\rb\"\n") == "S100 2:8"); // a lone carriage return
    const tests::Parsed p = parse_text("model \"m\"\nx : 1 = \x02 *\ny : 1 = 3\n");
    CHECK(p.diagnostics.error_count() == 1);
    CHECK(p.dump() == "model \"m\"\ny : [1] = 3\n");
}

TEST_CASE("the head of a line is its first word, unless it is named there") {
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const lang::FileId file =
        sources.add("t", "part \"A\"\n  given a = 3\n  margin : 1 = 3\n  price = 3\nround to 3\n");
    const lang::LogicalLines layout =
        lang::lay_out(sources, file, lang::FileKind::Model, diagnostics);
    REQUIRE(layout.lines.size() == 5);
    CHECK(layout.lines[0].head == lang::Keyword::Part);
    CHECK(layout.lines[1].head == lang::Keyword::Given);
    CHECK(layout.lines[1].parent == 0);
    CHECK(layout.lines[2].head == lang::Keyword::None);
    CHECK(layout.lines[3].head == lang::Keyword::None);
    CHECK(layout.lines[4].head == lang::Keyword::Round);
    CHECK(layout.lines[4].parent == lang::no_parent);
}

} // namespace layout_test
