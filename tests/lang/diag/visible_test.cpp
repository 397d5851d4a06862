#include <doctest/doctest.h>

#include "lang/diag/visible.h"

using namespace acre::lang;

TEST_CASE("what could move a cursor, hide or turn the reading direction is drawn as an escape") {
    struct {
        std::string_view text, drawn;
        std::size_t columns;
    } const rows[] = {
        {"plain $/ac", "plain $/ac", 10},
        {"\x1b[31mred", "<U+001B>[31mred", 15},
        {"a\tb", "a b", 3},
        {"a\nb", "a | b", 5},
        {"a\rb", "a<U+000D>b", 10},
        {"\x7f", "<U+007F>", 8},
        {"\xC2\x9B", "<U+009B>", 8},          // a C1 control: some terminals read it as escape [
        {"\xE2\x80\xAE", "<U+202E>", 8},      // right-to-left override
        {"\xE2\x81\xA6x", "<U+2066>x", 9},    // isolate
        {"\xE2\x80\x8B", "<U+200B>", 8},      // a blank of no width
        {"\xF3\xA0\x81\x81", "<U+E0041>", 9}, // a tag letter: nobody sees it
        {"\xFF", "<0xFF>", 6},                // not UTF-8
        {"\xC0\xAF", "<0xC0><0xAF>", 12},     // too long a form of '/'
        {"\xED\xA0\x80", "<0xED><0xA0><0x80>", 18},
        {"\xE2\x82", "<0xE2><0x82>", 12}, // cut off
        {"m\xC3\xBCll", "m\xC3\xBCll", 4},
        {"e\xCC\x81", "e\xCC\x81", 1},       // a mark over the e
        {"\xE6\x9E\x97", "\xE6\x9E\x97", 2}, // wide
        {"\xF0\x9F\x9A\x9C", "\xF0\x9F\x9A\x9C", 2},
        {std::string_view("\0", 1), "<U+0000>", 8},
    };
    for (const auto& row : rows) {
        CAPTURE(row.drawn);
        CHECK(visible(row.text) == row.drawn);
        CHECK(visible_columns(row.text) == row.columns);
    }
}

TEST_CASE("no byte that is not shown gets through, whatever the text") {
    std::string text;
    for (int high = 0; high < 256; ++high)
        for (int low = 0; low < 256; ++low)
            text += {static_cast<char>(high), static_cast<char>(low)};
    const std::string drawn = visible(text);
    std::size_t controls = 0;
    for (std::size_t i = 0; i < drawn.size(); ++i) {
        const auto c = static_cast<unsigned char>(drawn[i]);
        controls += c < 0x20 || c == 0x7F || (c == 0xC2 && static_cast<unsigned char>(drawn[i + 1]) < 0xA0);
    }
    CHECK(controls == 0);
}
