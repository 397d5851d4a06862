#include "lang/diag/safe_text.h"

#include <algorithm>
#include <cstdint>
#include <iterator>

namespace acre::lang {

namespace {

std::string hex(std::uint32_t value, int least_digits) {
    std::string digits;
    for (int shift = 28; shift >= 0; shift -= 4) {
        const std::uint32_t digit = value >> static_cast<unsigned>(shift) & 0xFU;
        if (digit != 0 || !digits.empty() || shift < least_digits * 4)
            digits += "0123456789abcdef"[digit];
    }
    return digits;
}

} // namespace

char32_t next_character(std::string_view text, std::size_t& at) {
    const auto byte = [&](std::size_t i) {
        return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
    };
    const std::uint32_t first = byte(at);
    if (first < 0x80) {
        ++at;
        return first;
    }
    const unsigned length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
    // Smallest character of each length: anything below it was written too long, which hides what
    // it is.
    constexpr char32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    char32_t character = length == 4 ? first & 0x07U : length == 3 ? first & 0x0FU : first & 0x1FU;
    bool good = first >= 0xC2 && first <= 0xF4;
    for (unsigned i = 1; good && i < length; ++i) {
        good = (byte(at + i) & 0xC0U) == 0x80U;
        character = character << 6U | (byte(at + i) & 0x3FU);
    }
    if (!good || character < least[length] || character > 0x10FFFF ||
        (character >= 0xD800 && character <= 0xDFFF)) {
        ++at;
        return not_utf8;
    }
    at += length;
    return character;
}

bool is_unsafe_character(char32_t c) {
    // Controls, marks that turn the reading direction, and characters that show nothing (Unicode
    // 15, general categories Cc, Cf, Zl and Zp, and the variation selectors).
    constexpr struct {
        char32_t first, last;
    } blocks[] = {{0x00, 0x1F},       {0x7F, 0x9F},      {0xAD, 0xAD},     {0x61C, 0x61C},
                  {0x180B, 0x180F},   {0x200B, 0x200F},  {0x2028, 0x202E}, {0x2060, 0x206F},
                  {0xFE00, 0xFE0F},   {0xFEFF, 0xFEFF},  {0xFFF0, 0xFFFB}, {0xFFFE, 0xFFFF},
                  {0x1D173, 0x1D17A}, {0xE0000, 0xE0FFF}};
    return std::any_of(std::begin(blocks), std::end(blocks),
                       [c](const auto& b) { return c >= b.first && c <= b.last; });
}

std::string terminal_text(std::string_view text) {
    std::string safe;
    safe.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t begin = at;
        const char32_t character = next_character(text, at);
        if (character == not_utf8)
            safe.append("\\x").append(hex(static_cast<unsigned char>(text[begin]), 2));
        else if (character == '\t')
            safe += ' ';
        else if (!is_unsafe_character(character))
            safe.append(text.substr(begin, at - begin));
        else if (character < 0x80)
            safe.append("\\x").append(hex(character, 2));
        else
            safe.append("\\u{").append(hex(character, 1)).append("}");
    }
    return safe;
}

} // namespace acre::lang
