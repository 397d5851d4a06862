// Pages of text taken apart line by line; what is not there is not made up.
#include "lang/diag/page_lines.h"

#include <string>

#include <doctest/doctest.h>

namespace page_lines_test {

using namespace acre::lang;

TEST_CASE("lines, paragraphs and indented lines are taken off the front") {
    std::string_view text = "one\ntwo\n\nthree\nfour\n\n\n    five\n      six\nseven";
    CHECK(take_line(text) == "one");
    CHECK(take_paragraph(text) == "two");
    CHECK(take_paragraph(text) == "three four");
    CHECK(take_indented(text) == "five\n  six\n");
    CHECK(take_indented(text).empty());
    CHECK(take_line(text) == "seven"); // without a line end
    CHECK(text.empty());
    CHECK(take_line(text).empty());
    CHECK(take_paragraph(text).empty());
}

TEST_CASE("an example has its word, its kind and indented lines, or it is none") {
    PageExample example;
    std::string_view good = "\nWrong .rate\n    a\n    b\n\nRight\n    c\n";
    REQUIRE(take_example(good, "Wrong", example));
    CHECK(example.kind == "rate");
    CHECK(example.text == "a\nb\n");
    example = {};
    REQUIRE(take_example(good, "Right", example));
    CHECK(example.kind.empty());
    CHECK(example.text == "c\n");
    CHECK(good.empty());
    for (std::string_view bad :
         {"Right\n    c\n", "Wrong rate\n    c\n", "Wrong.rate\n    c\n", "Wrong .rate\nc\n", ""})
        CHECK_FALSE(take_example(bad, "Wrong", example));
}

TEST_CASE("a page goes from its head to the next one") {
    std::string_view text = "before\n# A1\none\n## no head\n\n# B2 C3\n\ntwo";
    std::string_view head;
    std::string_view body;
    REQUIRE(take_page(text, head, body));
    CHECK(head == "A1");
    CHECK(body == "one\n## no head\n\n");
    REQUIRE(take_page(text, head, body));
    CHECK(head == "B2 C3");
    CHECK(body == "\ntwo");
    CHECK_FALSE(take_page(text, head, body));
    std::string_view bare = "# D4";
    REQUIRE(take_page(bare, head, body));
    CHECK(head == "D4");
    CHECK(body.empty());
}

} // namespace page_lines_test
