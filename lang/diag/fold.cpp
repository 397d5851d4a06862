#include "lang/diag/fold.h"

#include <algorithm>

#include "lang/diag/glyph.h"

namespace acre::lang {
namespace {

// Bytes of the longest start of `line` that ends at a space and is at most `width` columns wide, or
// of its first word. A number is kept with what follows it: `100 %`.
std::size_t fitting(std::string_view line, std::size_t width) {
    std::size_t columns = 0;
    std::size_t best = 0;
    for (std::size_t at = 0; at < line.size();) {
        if (line[at] == ' ' && at > 0) {
            const bool splits_a_quantity = line[at - 1] >= '0' && line[at - 1] <= '9';
            if (best == 0 || (columns <= width && !splits_a_quantity))
                best = at;
            if (columns > width)
                return best;
        }
        const Glyph glyph = glyph_at(line, at);
        columns += glyph.columns;
        at += glyph.bytes;
    }
    return columns <= width || best == 0 ? line.size() : best;
}

} // namespace

std::vector<std::string> fold(std::string_view text, std::size_t width) {
    std::vector<std::string> lines;
    while (true) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        std::string_view rest = text.substr(0, end);
        do {
            const std::size_t cut = fitting(rest, width);
            std::string_view line = rest.substr(0, cut);
            while (!line.empty() && line.back() == ' ')
                line.remove_suffix(1);
            lines.emplace_back(line);
            rest.remove_prefix(std::min(rest.find_first_not_of(' ', cut), rest.size()));
        } while (!rest.empty());
        if (end == text.size())
            return lines;
        text.remove_prefix(end + 1);
    }
}

} // namespace acre::lang
