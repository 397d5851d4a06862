#include <string>

#include <doctest/doctest.h>

#include "lang/diag/safe_text.h"

namespace safe_text_test {

using namespace acre::lang;

TEST_CASE("ordinary words in any language are shown as they are") {
    for (const char* text : {"", "north 40, Block 12", "Mendoza y Peña", "日本の畑", "1 200 €"})
        CHECK(terminal_text(text) == text);
}

TEST_CASE("nothing a stranger wrote can steer the terminal or turn the writing round") {
    struct Row {
        const char* text;
        const char* safe;
    };
    for (const Row& row :
         {Row{"a\x1b[2Jb", "a\\x1b[2Jb"}, Row{"a\rb\n", "a\\x0db\\x0a"}, Row{"\x7f", "\\x7f"},
          Row{"\xc2\x9b", "\\u{9b}"}, Row{"price \xe2\x80\xae$1", "price \\u{202e}$1"},
          Row{"\xe2\x81\xa6x", "\\u{2066}x"}, Row{"a\tb", "a b"},
          Row{"\xf3\xa0\x81\x81", "\\u{e0041}"}, Row{"\xef\xbb\xbfx", "\\u{feff}x"}})
        CHECK(terminal_text(row.text) == row.safe);
}

// The byte sequences that must not pass: The Unicode Standard 15.0, chapter 3, table 3-7
// (well-formed UTF-8 byte sequences).
TEST_CASE("bytes that are no UTF-8 are shown byte by byte") {
    struct Row {
        const char* text;
        const char* safe;
    };
    for (const Row& row :
         {Row{"\xff", "\\xff"}, Row{"\x80", "\\x80"}, Row{"\xc0\xaf", "\\xc0\\xaf"},
          Row{"\xe0\x9f\xbf", "\\xe0\\x9f\\xbf"}, Row{"\xed\xa0\x80", "\\xed\\xa0\\x80"},
          Row{"\xf4\x90\x80\x80", "\\xf4\\x90\\x80\\x80"}, Row{"\xe2\x82", "\\xe2\\x82"},
          Row{"\xf5\x80\x80\x80", "\\xf5\\x80\\x80\\x80"}})
        CHECK(terminal_text(row.text) == row.safe);
    CHECK(terminal_text(std::string_view("\0", 1)) == "\\x00");
}

} // namespace safe_text_test
