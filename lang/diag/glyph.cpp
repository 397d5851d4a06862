#include "lang/diag/glyph.h"

#include "lang/diag/safe_text.h"
#include "lang/source/utf8.h"

namespace acre::lang {

Glyph glyph_at(std::string_view text, std::size_t at) {
    std::size_t end = at;
    const char32_t c = next_character(text, end);
    Glyph glyph{end - at, c == '\t', 1};
    if (glyph.tab || (c >= 0x20 && c < 0x7F))
        return glyph;
    if (c == not_utf8 || is_unsafe_character(c))
        glyph.columns = terminal_text(text.substr(at, glyph.bytes)).size();
    else
        glyph.columns = columns_of(c);
    return glyph;
}

std::size_t text_columns(std::string_view text) {
    std::size_t columns = 0;
    for (std::size_t at = 0; at < text.size();) {
        const Glyph glyph = glyph_at(text, at);
        columns += glyph.columns;
        at += glyph.bytes;
    }
    return columns;
}

} // namespace acre::lang
