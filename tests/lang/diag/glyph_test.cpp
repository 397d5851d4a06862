#include <doctest/doctest.h>

#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"

namespace glyph_test {

using namespace acre::lang;

TEST_CASE("the columns of a text are those it takes when drawn") {
    struct {
        std::string_view text;
        std::size_t columns;
    } const rows[] = {
        {"", 0},
        {"plain $/ac", 10},
        {"a\tb", 3},
        {"\x1b[31mred", 11},     // \x1b, then the rest
        {"\xE2\x80\xAE", 8},     // right-to-left override: \u{202e}
        {"\xF3\xA0\x81\x81", 9}, // a tag letter: \u{e0041}
        {"\xE2\x80\x8B", 8},     // a blank of no width
        {"\xFF\xC0", 8},         // not UTF-8: \xff\xc0
        {"m\xC3\xBCll", 4},
        {"e\xCC\x81", 1},    // a mark over the e
        {"\xE6\x9E\x97", 2}, // wide
        {"\xF0\x9F\x9A\x9C", 2},
    };
    for (const auto& row : rows) {
        CAPTURE(row.columns);
        CHECK(text_columns(row.text) == row.columns);
    }
}

TEST_CASE("no byte that is not shown gets through, whatever the text") {
    std::string text;
    for (int high = 0; high < 256; ++high)
        for (int low = 0; low < 256; ++low)
            text += {static_cast<char>(high), static_cast<char>(low)};
    const std::string drawn = terminal_text(text);
    std::size_t controls = 0;
    for (std::size_t i = 0; i < drawn.size(); ++i) {
        const auto c = static_cast<unsigned char>(drawn[i]);
        controls +=
            c < 0x20 || c == 0x7F || (c == 0xC2 && static_cast<unsigned char>(drawn[i + 1]) < 0xA0);
    }
    CHECK(controls == 0);
}

} // namespace glyph_test
