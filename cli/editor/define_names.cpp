#include "cli/editor/define_names.h"

#include <algorithm>

#include "lang/syntax/tokens.h"

namespace acre::cli {

namespace {

std::size_t start_of_line(std::string_view text, std::size_t at) {
    return at == 0 ? 0 : text.rfind('\n', at - 1) + 1; // npos + 1 is 0
}

} // namespace

std::optional<std::vector<std::string_view>> names_of_define(std::string_view text,
                                                             std::uint32_t offset) {
    const auto is_outer = [&](std::size_t line) {
        return line < text.size() &&
               std::string_view(" \t\r\n#").find(text[line]) == std::string_view::npos;
    };
    std::size_t begin = start_of_line(text, std::min<std::size_t>(offset, text.size()));
    while (begin > 0 && !is_outer(begin))
        begin = start_of_line(text, begin - 1);
    if (!text.substr(begin).starts_with("define "))
        return std::nullopt;
    std::size_t end = text.find('\n', begin);
    while (end != std::string_view::npos && !is_outer(end + 1))
        end = text.find('\n', end + 1);
    std::vector<std::string_view> names;
    const auto stop = static_cast<std::uint32_t>(std::min(end, text.size()));
    lang::Token token = lang::next_solid_token(text, static_cast<std::uint32_t>(begin), stop);
    while (token.kind != lang::TokenKind::End) {
        const lang::Token next = lang::next_solid_token(text, token.end, stop);
        if (token.kind == lang::TokenKind::Name && next.in(text) == ":")
            names.push_back(token.in(text));
        token = next;
    }
    return names;
}

} // namespace acre::cli
