#include <doctest/doctest.h>

#include "cli/shared/text/wrap.h"

namespace wrap_test {

using namespace acre::cli;

TEST_CASE("words fold at blanks and never lose one") {
    CHECK(wrapped_lines("", 10) == std::vector<std::string>{""});
    CHECK(wrapped_lines("one two three", 7) == std::vector<std::string>{"one two", "three"});
    CHECK(wrapped_lines("a bcdef", 6) == std::vector<std::string>{"a", "bcdef"});
    CHECK(wrapped_lines("a bcdef", 7) == std::vector<std::string>{"a bcdef"});
    CHECK(wrapped_lines("one  two", 20) == std::vector<std::string>{"one two"});
    CHECK(wrapped_lines("a\nb c", 20) == std::vector<std::string>{"a", "b c"});
    CHECK(wrapped_lines("extraordinary is long", 6) ==
          std::vector<std::string>{"extrao", "rdinar", "y is", "long"});
    CHECK(wrap("one two three", 11, 4) == "one two\n    three");
}

TEST_CASE("a word that no line holds is broken, after a sign if it can be") {
    CHECK(wrapped_lines("season_prices.diesel", 16) ==
          std::vector<std::string>{"season_prices.", "diesel"});
    CHECK(wrapped_lines("of 日本の畑です", 6) ==
          std::vector<std::string>{"of", "日本の", "畑です"});
    // A mark stays with its letter, and a character wider than the line has one for itself.
    CHECK(wrapped_lines("ae\xcc\x81io", 2) == std::vector<std::string>{"ae\xcc\x81", "io"});
    CHECK(wrapped_lines("abc", 1) == std::vector<std::string>{"a", "b", "c"});
    CHECK(wrapped_lines("日本", 1) == std::vector<std::string>{"日", "本"});
}

TEST_CASE("inks take no columns and are never broken") {
    const std::string bold = "\x1b[1m";
    const std::string plain = "\x1b[0m";
    CHECK(wrapped_lines(bold + "one two" + plain + " three", 7) ==
          std::vector<std::string>{bold + "one two" + plain, "three"});
    CHECK(wrapped_lines(bold + "abcdef" + plain, 3) ==
          std::vector<std::string>{bold + "abc", "def" + plain});
}

TEST_CASE("columns are counted as a terminal shows them") {
    // East Asian wide characters take two columns (Unicode Standard Annex 11), a mark over a letter
    // none.
    CHECK(padded("日本", 6) == "日本  ");
    CHECK(right_aligned("e\xcc\x81", 3) == "  e\xcc\x81");
    CHECK(shortened("a long name", 8) == "a lon...");
    CHECK(shortened("short", 8) == "short");
    CHECK(shortened("a length", 8) == "a length");
    CHECK(shortened("日本の畑です", 8) == "日本...");
}

} // namespace wrap_test
