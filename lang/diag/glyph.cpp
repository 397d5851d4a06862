#include "lang/diag/glyph.h"

#include <algorithm>
#include <iterator>

#include "lang/diag/safe_text.h"

namespace acre::lang {
namespace {

struct Block {
    char32_t first, last;
};

// Marks drawn over the character before them.
constexpr Block combining[] = {{0x0300, 0x036F}, {0x0483, 0x0489}, {0x0591, 0x05BD},
                               {0x064B, 0x065F}, {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF},
                               {0x20D0, 0x20FF}, {0xFE20, 0xFE2F}};
// Characters two columns wide (the East Asian wide blocks and the pictographs).
constexpr Block wide[] = {{0x1100, 0x115F},   {0x2E80, 0x303E},   {0x3041, 0xA4CF},
                          {0xA960, 0xA97C},   {0xAC00, 0xD7A3},   {0xF900, 0xFAFF},
                          {0xFE30, 0xFE6F},   {0xFF00, 0xFF60},   {0xFFE0, 0xFFE6},
                          {0x1F300, 0x1F64F}, {0x1F680, 0x1F6FF}, {0x1F900, 0x1FAFF},
                          {0x20000, 0x2FFFD}, {0x30000, 0x3FFFD}};

template <std::size_t N> bool within(const Block (&blocks)[N], char32_t c) {
    return std::any_of(
        std::begin(blocks), std::end(blocks), [c](Block b) { return c >= b.first && c <= b.last; });
}

} // namespace

Glyph glyph_at(std::string_view text, std::size_t at) {
    std::size_t end = at;
    const char32_t c = next_character(text, end);
    Glyph glyph{end - at, c == '\t', 1};
    if (glyph.tab || (c >= 0x20 && c < 0x7F))
        return glyph;
    if (c == not_utf8 || is_unsafe_character(c))
        glyph.columns = terminal_text(text.substr(at, glyph.bytes)).size();
    else
        glyph.columns = within(combining, c) ? 0 : within(wide, c) ? 2 : 1;
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
