#include "lang/diag/safe_text.h"

#include <cstdint>

#include "lang/source/utf8.h"

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

bool is_unsafe_character(char32_t c) {
    return c < 0x7F ? c < 0x20 : shows_nothing(c);
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
