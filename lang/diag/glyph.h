// How a text falls on the columns of a terminal, with what is unsafe drawn as the escapes of
// safe_text.h.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace acre::lang {

// One character of a text that may not be valid UTF-8.
struct Glyph {
    std::size_t bytes = 1; // how many it takes
    bool tab = false;      // drawn as whoever draws the line decides; else one column
    std::size_t columns =
        1; // 0 for a mark over the character before it, 2 for a wide one, more for an escape
};

// `at` must lie in the text.
Glyph glyph_at(std::string_view text, std::size_t at);

// Columns that terminal_text(text) takes.
std::size_t text_columns(std::string_view text);

} // namespace acre::lang
