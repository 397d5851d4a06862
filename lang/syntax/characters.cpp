#include "lang/syntax/characters.h"

#include <cstring>

namespace acre::lang {

namespace {

struct Decoded {
    std::uint32_t code = 0;
    std::uint32_t length = 0; // 0: not UTF-8
};

// One sequence of two to four bytes, by the table of well-formed sequences of the Unicode standard
// (section 3.9).
Decoded decode(const unsigned char* p, std::size_t left) {
    const auto tail = [&](std::size_t i) { return i < left && (p[i] & 0xC0U) == 0x80U; };
    const std::uint32_t a = p[0];
    if (a >= 0xC2 && a <= 0xDF && tail(1))
        return {((a & 0x1FU) << 6U) | (p[1] & 0x3FU), 2};
    if (a >= 0xE0 && a <= 0xEF && tail(1) && tail(2)) {
        const std::uint32_t code = ((a & 0x0FU) << 12U) | ((p[1] & 0x3FU) << 6U) | (p[2] & 0x3FU);
        if (code >= 0x800 && (code < 0xD800 || code > 0xDFFF))
            return {code, 3};
    }
    if (a >= 0xF0 && a <= 0xF4 && tail(1) && tail(2) && tail(3)) {
        const std::uint32_t code = ((a & 0x07U) << 18U) | ((p[1] & 0x3FU) << 12U) |
                                   ((p[2] & 0x3FU) << 6U) | (p[3] & 0x3FU);
        if (code >= 0x10000 && code <= 0x10FFFF)
            return {code, 4};
    }
    return {};
}

// The second set of control characters, and the signs that embed, override or isolate a direction
// of writing.
bool is_unwanted(std::uint32_t code) {
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
            const Decoded decoded = decode(p + i, size - i);
            if (decoded.length == 0) {
                scan.invalid_at = static_cast<std::uint32_t>(i);
                return scan;
            }
            if (is_unwanted(decoded.code))
                unwanted(i);
            i += decoded.length;
        }
    }
    return scan;
}

} // namespace acre::lang
