// The lines of a wording, one by one.
#include "cli/shared/quote_page/wording_lines.h"

#include <doctest/doctest.h>

#include <string>

namespace wording_lines_test {

using namespace acre::cli;

TEST_CASE("blanks at both ends are no part of a line, and nothing is a place all the same") {
    CHECK(trimmed(" \t a b\r\t ") == "a b");
    CHECK(trimmed("a") == "a");
    const std::string text = " \r ";
    const std::string_view nothing = trimmed(text);
    CHECK(nothing.empty());
    CHECK(nothing.data() == text.data() + text.size());
    CHECK(trimmed("").empty());
}

TEST_CASE("what stands between `@each` and the next `@end` is its own") {
    const std::string text = "@each area\none\n two @end\n  @end\t\r\nafter\n@end\n";
    const auto body = each_body(text, 11);
    REQUIRE(body);
    CHECK(body->lines == "one\n two @end\n");
    CHECK(text.substr(body->next) == "after\n@end\n");
    const auto none = each_body("@end", 0);
    REQUIRE(none);
    CHECK(none->lines.empty());
    CHECK(none->next == 5); // past the text: nothing comes after it
    CHECK(!each_body("one\n@ends\n", 0));
    CHECK(!each_body("", 0));
    CHECK(!each_body("one", 3));
}

TEST_CASE("pairs are told by name, the first of each, and what is no pair is passed over") {
    const auto pairs = pairs_of("  base=fuel_base   rows=6 word rows=7 empty= =x a=b=c ");
    CHECK(pairs.size() == 5);
    CHECK(pairs.at("base") == "fuel_base");
    CHECK(pairs.at("rows") == "6");
    CHECK(pairs.at("empty").empty());
    CHECK(pairs.at("") == "x");
    CHECK(pairs.at("a") == "b=c");
    CHECK(pairs_of("").empty());
}

TEST_CASE("a name is spoken with spaces and a capital") {
    const struct {
        const char *name, *spoken;
    } rows[] = {{"river_piece", "River piece"},
                {"a.b_2", "A b 2"},
                {"z", "Z"},
                {"az", "Az"},
                {"zz~", "Zz~"},
                {"a~", "A~"},
                {"Already", "Already"},
                {"2nd", "2nd"},
                {"", ""},
                {"_x", " x"},
                {"`a", "`a"},
                {"{a", "{a"}};
    for (const auto& row : rows)
        CHECK(spoken(row.name) == row.spoken);
}

TEST_CASE("what the firm's file says is told by the line that says it") {
    CHECK(said_by_firm("name") ==
          "delete the line; the firm's file, which a season names, says  firm \"…\"");
    CHECK(said_by_firm("address") ==
          "delete the line; the firm's file, which a season names, says  : address = \"…\"");
}

} // namespace wording_lines_test
