#include "cli/shared/text/wrap.h"

#include <algorithm>

#include "lang/diag/glyph.h"

namespace acre::cli {

using lang::text_columns;

namespace {

// An ink of the program at the front (cli/shared/text/style.h): it takes no column. Anything else
// that could steer a terminal was taken out before.
std::size_t ink_bytes(std::string_view text) {
    return text.starts_with('\x1b') ? std::min(text.find('m'), text.size() - 1) + 1 : 0;
}

std::size_t word_columns(std::string_view word) {
    std::size_t columns = 0;
    while (!word.empty()) {
        const std::size_t ink = ink_bytes(word);
        const std::size_t end = std::min(word.find('\x1b', ink), word.size());
        columns += end > ink ? text_columns(word.substr(ink, end - ink)) : 0;
        word.remove_prefix(end);
    }
    return columns;
}

// Takes from the front of `word` what `width` columns hold, at least one character; where there is
// a sign at which a long name may part in the second half, up to there.
std::string_view taken_from(std::string_view& word, std::size_t width) {
    std::size_t at = 0;
    std::size_t columns = 0;
    std::size_t part = 0;
    while (at < word.size()) {
        if (const std::size_t ink = ink_bytes(word.substr(at)); ink > 0) {
            at += ink;
            continue;
        }
        const lang::Glyph glyph = lang::glyph_at(word, at);
        if (columns > 0 && columns + glyph.columns > width)
            break;
        columns += glyph.columns;
        if (std::string_view("._/-,;:").find(word[at]) != std::string_view::npos &&
            2 * columns >= width)
            part = at + glyph.bytes;
        at += glyph.bytes;
    }
    const std::string_view taken = word.substr(0, part > 0 && at < word.size() ? part : at);
    word.remove_prefix(taken.size());
    return taken;
}

} // namespace

std::vector<std::string> wrapped_lines(std::string_view text, std::size_t width) {
    std::vector<std::string> lines(1);
    std::size_t used = 0;
    while (!text.empty()) {
        const auto end = std::min(text.find_first_of(" \n"), text.size());
        std::string_view word = text.substr(0, end);
        std::size_t columns = word_columns(word);
        if (!word.empty()) {
            if (used > 0 && used + 1 + columns > width) {
                lines.emplace_back();
                used = 0;
            }
            if (used > 0) {
                lines.back() += ' ';
                ++used;
            }
            for (; columns > width && word.size() > 1; columns = word_columns(word)) {
                const std::string_view taken = taken_from(word, width);
                if (word.empty()) {
                    word = taken;
                    break;
                }
                lines.back() += taken;
                lines.emplace_back();
            }
            lines.back() += word;
            used += columns;
        }
        if (end < text.size() && text[end] == '\n') {
            lines.emplace_back();
            used = 0;
        }
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
}

std::string wrap(std::string_view text, std::size_t width, std::size_t indent) {
    std::string out;
    for (const std::string& line : wrapped_lines(text, width > indent ? width - indent : 1)) {
        if (!out.empty()) {
            out += '\n';
            out.append(line.empty() ? 0 : indent, ' ');
        }
        out += line;
    }
    return out;
}

std::string padded(std::string_view text, std::size_t width) {
    const std::size_t columns = text_columns(text);
    return std::string(text) + std::string(columns < width ? width - columns : 0, ' ');
}

std::string right_aligned(std::string_view text, std::size_t width) {
    const std::size_t columns = text_columns(text);
    return std::string(columns < width ? width - columns : 0, ' ') + std::string(text);
}

std::string shortened(std::string_view text, std::size_t width) {
    if (text_columns(text) <= width)
        return std::string(text);
    std::size_t at = 0;
    std::size_t columns = 0;
    while (at < text.size()) {
        const lang::Glyph glyph = lang::glyph_at(text, at);
        if (columns + glyph.columns + 3 > width)
            break;
        columns += glyph.columns;
        at += glyph.bytes;
    }
    return std::string(text.substr(0, at)) + "...";
}

} // namespace acre::cli
