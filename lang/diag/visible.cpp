#include "lang/diag/visible.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <iterator>

#include <fmt/format.h>

namespace acre::lang {
namespace {

struct Block {
    char32_t first;
    char32_t last;
};

// Controls, marks that turn the reading direction, and characters that show nothing (Unicode 15, general categories
// Cc, Cf, Zl, Zp and the variation selectors).
constexpr Block hidden[] = {{0x0000, 0x001F}, {0x007F, 0x009F}, {0x00AD, 0x00AD},   {0x061C, 0x061C},  {0x180B, 0x180F},
                            {0x200B, 0x200F}, {0x2028, 0x202E}, {0x2060, 0x206F},   {0xFE00, 0xFE0F},  {0xFEFF, 0xFEFF},
                            {0xFFF0, 0xFFFB}, {0xFFFE, 0xFFFF}, {0x1D173, 0x1D17A}, {0xE0000, 0xE0FFF}};
// Marks drawn over the character before them.
constexpr Block combining[] = {{0x0300, 0x036F}, {0x0483, 0x0489}, {0x0591, 0x05BD}, {0x064B, 0x065F},
                               {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF}, {0x20D0, 0x20FF}, {0xFE20, 0xFE2F}};
// Characters two columns wide (the East Asian wide blocks and the pictographs).
constexpr Block wide[] = {{0x1100, 0x115F},   {0x2E80, 0x303E},   {0x3041, 0xA4CF},   {0xA960, 0xA97C},  {0xAC00, 0xD7A3},
                          {0xF900, 0xFAFF},   {0xFE30, 0xFE6F},   {0xFF00, 0xFF60},   {0xFFE0, 0xFFE6},  {0x1F300, 0x1F64F},
                          {0x1F680, 0x1F6FF}, {0x1F900, 0x1FAFF}, {0x20000, 0x2FFFD}, {0x30000, 0x3FFFD}};

template <std::size_t N> bool within(const Block (&blocks)[N], char32_t c) {
    return std::any_of(std::begin(blocks), std::end(blocks), [c](Block b) { return c >= b.first && c <= b.last; });
}

std::uint8_t byte_at(std::string_view text, std::size_t at) {
    return static_cast<std::uint8_t>(text[at]);
}

// Length of the valid UTF-8 sequence at `at`, 0 if there is none (too long a form, surrogates, past U+10FFFF).
std::size_t decode(std::string_view text, std::size_t at, char32_t& code) {
    const std::uint8_t lead = byte_at(text, at);
    if (lead < 0x80) {
        code = lead;
        return 1;
    }
    const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4 || at + length > text.size())
        return 0;
    code = lead & (0xFFU >> (length + 1));
    for (std::size_t i = 1; i < length; ++i) {
        const std::uint8_t next = byte_at(text, at + i);
        if ((next & 0xC0U) != 0x80U)
            return 0;
        code = (code << 6U) | (next & 0x3FU);
    }
    constexpr std::array<char32_t, 5> smallest = {0, 0, 0x80, 0x800, 0x10000};
    if (code < smallest[length] || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF))
        return 0;
    return length;
}

} // namespace

Glyph glyph_at(std::string_view text, std::size_t at) {
    Glyph glyph;
    if (const std::size_t length = decode(text, at, glyph.code); length > 0) {
        glyph.bytes = length;
        if (glyph.code >= 0x20 && glyph.code < 0x7F) {
            glyph.drawn_raw = true;
        } else if (within(hidden, glyph.code)) {
            glyph.columns = glyph.code > 0xFFFF ? 9 : 8; // <U+202E>
        } else {
            glyph.drawn_raw = true;
            glyph.columns = within(combining, glyph.code) ? 0 : within(wide, glyph.code) ? 2 : 1;
        }
        return glyph;
    }
    glyph.valid = false;
    glyph.code = byte_at(text, at);
    glyph.columns = 6; // <0xFF>
    return glyph;
}

void append_visible(std::string& out, std::string_view text, std::size_t at, const Glyph& glyph) {
    if (glyph.drawn_raw)
        out.append(text.substr(at, glyph.bytes));
    else
        out += glyph.valid ? fmt::format("<U+{:04X}>", static_cast<std::uint32_t>(glyph.code))
                           : fmt::format("<0x{:02X}>", static_cast<std::uint32_t>(glyph.code));
}

std::string visible(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const Glyph glyph = glyph_at(text, at);
        if (glyph.code == '\t')
            out += ' ';
        else if (glyph.code == '\n' && glyph.valid)
            out += " | ";
        else
            append_visible(out, text, at, glyph);
        at += glyph.bytes;
    }
    return out;
}

std::size_t visible_columns(std::string_view text) {
    std::size_t columns = 0;
    for (std::size_t at = 0; at < text.size();) {
        const Glyph glyph = glyph_at(text, at);
        columns += glyph.code == '\t' ? 1 : glyph.code == '\n' ? 3 : glyph.columns;
        at += glyph.bytes;
    }
    return columns;
}

} // namespace acre::lang
