#include "cli/workbook/cell_words.h"

#include <algorithm>
#include <cctype>
#include <cstddef>

#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

// `_x0041_` is a letter to a spreadsheet: in a stranger's words it is seven characters.
std::string without_escapes(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto is_escape = [&] {
            if (i + 7 > text.size() || text[i] != '_' || (text[i + 1] | 0x20) != 'x' ||
                text[i + 6] != '_')
                return false;
            return std::all_of(text.begin() + static_cast<std::ptrdiff_t>(i) + 2,
                               text.begin() + static_cast<std::ptrdiff_t>(i) + 6, [](char c) {
                                   return std::isxdigit(static_cast<unsigned char>(c)) != 0;
                               });
        };
        out += is_escape() ? "_x005F_" : std::string(1, text[i]);
    }
    return out;
}

} // namespace

std::string cell_words(std::string_view text, std::size_t most) {
    std::string safe = without_escapes(lang::terminal_text(text));
    if (safe.size() <= most)
        return safe;
    constexpr std::string_view more = "…";
    std::size_t end = most - more.size();
    while (end > 0 && (static_cast<unsigned char>(safe[end]) & 0xC0U) == 0x80)
        --end;
    return safe.substr(0, end).append(more);
}

} // namespace acre::cli
