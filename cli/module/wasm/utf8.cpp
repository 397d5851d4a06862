// Characters of UTF-8 texts from a table that the building machine's library made.
#include "lang/source/utf8.h"

#include <algorithm>
#include <cstdint>
#include <iterator>

namespace acre::lang {
namespace {

struct Run {
    std::uint32_t first;
    std::uint8_t columns, nothing;
};
constexpr Run runs[] = {
#include <characters.inc>
};

const Run& run_of(char32_t character) {
    const auto* after =
        std::upper_bound(std::begin(runs), std::end(runs), static_cast<std::uint32_t>(character),
                         [](std::uint32_t code, const Run& run) { return code < run.first; });
    return *std::prev(after);
}

} // namespace

char32_t next_character(std::string_view text, std::size_t& at) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned first = byte(at);
    const std::size_t start = at++;
    if (first < 0x80)
        return first;
    const std::size_t more = first >= 0xF0 ? 3 : first >= 0xE0 ? 2 : 1;
    if (first < 0xC2 || first > 0xF4 || text.size() - at < more)
        return not_utf8;
    char32_t character = first & (0x3FU >> more);
    for (std::size_t i = at; i < at + more; ++i) {
        if ((byte(i) & 0xC0U) != 0x80)
            return not_utf8;
        character = character << 6U | (byte(i) & 0x3FU);
    }
    const bool surrogate = character >= 0xD800 && character < 0xE000;
    const bool too_long = (more == 2 && character < 0x800) || (more == 3 && character < 0x10000);
    if (surrogate || too_long || character > 0x10FFFF)
        return not_utf8;
    at = start + 1 + more;
    return character;
}

bool shows_nothing(char32_t character) {
    return run_of(character).nothing != 0;
}

std::size_t columns_of(char32_t character) {
    return run_of(character).columns;
}

} // namespace acre::lang
