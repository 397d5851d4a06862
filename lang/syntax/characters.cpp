#include "lang/syntax/characters.h"

#include <cstring>

#include "lang/source/utf8.h"

namespace acre::lang {

namespace {

// The second set of control characters, and the signs that embed, override or isolate a direction
// of writing.
bool is_unwanted(char32_t code) {
    return (code >= 0x80 && code <= 0x9F) || (code >= 0x202A && code <= 0x202E) ||
           (code >= 0x2066 && code <= 0x2069);
}

// Eight bytes that are plain text: no high bit, none below the blank, no delete.
bool plain(std::uint64_t v) {
    constexpr std::uint64_t ones = 0x0101010101010101ULL;
    constexpr std::uint64_t high = 0x8080808080808080ULL;
    const std::uint64_t below_blank = (v - 0x20 * ones) & ~v;
    const std::uint64_t delete_sign = (v ^ 0x7F * ones) - ones;
    return ((v | below_blank | delete_sign) & high) == 0;
}

} // namespace

CharacterScan scan_characters(std::string_view text) {
    CharacterScan scan;
    const auto* p = reinterpret_cast<const unsigned char*>(text.data());
    const std::size_t size = text.size();
    const auto unwanted = [&](std::size_t at) {
        if (scan.unwanted.size() < CharacterScan::most)
            scan.unwanted.push_back(static_cast<std::uint32_t>(at));
    };
    for (std::size_t i = 0; i < size;) {
        std::uint64_t eight = 0;
        if (i + 8 <= size && (std::memcpy(&eight, p + i, 8), plain(eight))) {
            i += 8;
        } else if (p[i] < 0x80) {
            const bool line_end =
                p[i] == '\n' || (p[i] == '\r' && i + 1 < size && p[i + 1] == '\n');
            if ((p[i] < 0x20 && p[i] != '\t' && !line_end) || p[i] == 0x7F)
                unwanted(i);
            ++i;
        } else {
            const std::size_t begin = i;
            const char32_t character = next_character(text, i);
            if (character == not_utf8) {
                scan.invalid_at = static_cast<std::uint32_t>(begin);
                return scan;
            }
            if (is_unwanted(character))
                unwanted(begin);
        }
    }
    return scan;
}

} // namespace acre::lang
