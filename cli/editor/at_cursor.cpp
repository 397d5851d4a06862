#include "cli/editor/at_cursor.h"

#include <algorithm>
#include <string>

#include "cli/editor/define_names.h"

namespace acre::cli {

std::optional<lang::Token> token_at(std::string_view text, std::uint32_t offset) {
    const auto size = static_cast<std::uint32_t>(text.size());
    if (offset > size)
        return std::nullopt;
    // No token but a text in quotes goes over a line, and that ends with it too.
    const std::size_t before = offset == 0 ? std::string_view::npos : text.rfind('\n', offset - 1);
    auto at = before == std::string_view::npos ? 0 : static_cast<std::uint32_t>(before + 1);
    std::optional<lang::Token> found;
    for (;;) {
        const lang::Token token = lang::next_token(text, at, size);
        if (token.kind == lang::TokenKind::End || token.kind == lang::TokenKind::LineEnd ||
            token.begin > offset)
            return found;
        if (token.end >= offset &&
            (!found || token.kind == lang::TokenKind::Name || token.end > offset))
            found = token;
        at = token.end;
    }
}

namespace {

// The part of a dotted name that the place is in.
std::pair<std::uint32_t, std::uint32_t> part_at(std::string_view text, const lang::Token& name,
                                                std::uint32_t offset) {
    std::uint32_t begin = offset;
    std::uint32_t end = offset;
    while (begin > name.begin && text[begin - 1] != '.')
        --begin;
    while (end < name.end && text[end] != '.')
        ++end;
    return {begin, end};
}

} // namespace

AtCursor symbol_at(const engine::Outline& outline, const std::string& file, std::string_view text,
                   std::uint32_t offset) {
    for (const engine::Mention& mention : outline.mentions) {
        const engine::Stretch& at = mention.at;
        const engine::Symbol& symbol = outline.symbols[mention.symbol];
        if (at.file == file && at.begin <= offset && offset <= at.end && at.end <= text.size() &&
            text.substr(at.begin, at.end - at.begin) == symbol.name)
            return {&symbol, mention.symbol, at.begin, at.end};
    }
    const std::optional<lang::Token> token = token_at(text, offset);
    if (!token || token->kind != lang::TokenKind::Name)
        return {};
    const auto [begin, end] = part_at(text, *token, offset);
    AtCursor found{nullptr, 0, begin, end};
    if (const auto own = names_of_define(text, offset);
        own && std::find(own->begin(), own->end(), token->in(text)) != own->end())
        return found; // whatever else is called like it
    std::size_t same = 0;
    for (std::uint32_t i = 0; i < outline.symbols.size(); ++i) {
        const engine::Symbol& symbol = outline.symbols[i];
        if (symbol.name != text.substr(begin, end - begin))
            continue;
        ++same;
        if (found.symbol == nullptr || symbol.at.file == file) {
            found.symbol = &symbol;
            found.index = i;
        }
    }
    if (same > 1 && found.symbol != nullptr && found.symbol->at.file != file)
        return {nullptr, 0, begin, end};
    return found;
}

} // namespace acre::cli
