// Text from outside, made safe to show: nothing a file says may move a cursor, hide, or turn the reading direction.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace acre::lang {

// One character of a text that may not be valid UTF-8.
struct Glyph {
    std::size_t bytes = 1;  // how many it takes
    char32_t code = 0;      // the code point, or the byte itself
    bool valid = true;      // false: a byte that is not UTF-8
    unsigned columns = 1;   // in a terminal, as drawn by `append_visible`
    bool drawn_raw = false; // false: drawn as an escape such as <U+202E>
};

// `text` must not be empty and `at` must lie in it.
Glyph glyph_at(std::string_view text, std::size_t at);
// Draws the glyph that stands at `at`: itself, or an escape.
void append_visible(std::string& out, std::string_view text, std::size_t at, const Glyph& glyph);

// The whole text: control bytes, bidirectional and invisible marks, and bytes that are not UTF-8 become <U+001B> or <0xFF>.
// A tab becomes a blank, a line end " | ".
std::string visible(std::string_view text);
// Columns that visible(text) takes in a terminal.
std::size_t visible_columns(std::string_view text);

} // namespace acre::lang
