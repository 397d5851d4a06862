#include "cli/editor/hover.h"

#include "cli/editor/at_cursor.h"
#include "lang/diag/safe_text.h"
#include "lang/syntax/word_page.h"
#include "lang/units/measures.h"

namespace acre::cli {

namespace {

std::string line_text(const engine::LineNow& line) {
    std::string text = line.name + " = " + line.text;
    if (line.set_by.empty())
        return text + "\n";
    text += "\n  set by the " + line.set_by + ", " + line.place;
    return text + (line.because.empty() ? "" : ", because \"" + line.because + "\"") + "\n";
}

std::string symbol_text(const TextView& view, const engine::Symbol& symbol) {
    std::string text = symbol.label.empty() ? "" : symbol.label + "\n";
    if (symbol.kind == engine::Symbol::Kind::Function || symbol.kind == engine::Symbol::Kind::Table)
        text += signature_of(symbol) + "\n";
    for (const engine::LineNow& line : symbol.lines)
        text += line_text(line);
    if (symbol.lines.size() == 1 && !symbol.written.empty())
        text += "= " + symbol.written + "\n";
    if (symbol.is_choice()) {
        text += "one of:";
        for (const std::string& option : symbol.options)
            text += " " + option;
        text += "\n";
    }
    for (const std::string& source : symbol.sources)
        text += "source: " + source + "\n";
    if (!view.fresh)
        text += "(as it was before the errors in the text)\n";
    return text;
}

// Line ends stay; whatever else could steer a terminal is shown.
std::string safe_lines(std::string_view text) {
    std::string safe;
    while (!text.empty())
        safe += lang::terminal_text(lang::take_line(text)) + "\n";
    return safe;
}

std::string word_text_of(std::string_view word) {
    std::string text;
    for (const lang::WordPage& page : lang::pages_of_word(word)) {
        text += page.summary + "\n";
        for (const std::string& form : page.forms)
            text += "  " + form + "\n";
    }
    return text;
}

std::string unit_text_of(std::string_view word) {
    for (const lang::Measure& unit : lang::measures())
        if (unit.name == word)
            return std::string(unit.kind) + ": " + std::string(unit.name) +
                   (unit.is.empty() ? "" : " = " + unit.is) + "\n";
    return {};
}

// A unit stands right behind a number, a colon, or another unit.
bool is_unit_place(std::string_view text, const lang::Token& token) {
    const std::size_t line = token.begin == 0 ? 0 : text.rfind('\n', token.begin - 1) + 1;
    const lang::Token before =
        lang::token_before(text, static_cast<std::uint32_t>(line), token.begin);
    if (before.kind == lang::TokenKind::Number)
        return true;
    const std::string_view sign = before.in(text);
    return before.kind == lang::TokenKind::Sign &&
           (sign == ":" || ((sign == "/" || sign == ".") && before.end == token.begin));
}

} // namespace

std::string signature_of(const engine::Symbol& symbol) {
    return symbol.written;
}

std::optional<Hover> hover_at(const TextView& view, const std::string& file, std::string_view text,
                              std::uint32_t offset) {
    const std::optional<lang::Token> token = token_at(text, offset);
    if (!token || token->kind != lang::TokenKind::Name)
        return std::nullopt;
    const std::string_view word = token->in(text);
    if (is_unit_place(text, *token))
        if (std::string unit = unit_text_of(word); !unit.empty())
            return Hover{std::move(unit), token->begin, token->end};
    if (view.outline != nullptr) {
        const AtCursor at = symbol_at(*view.outline, file, text, offset);
        if (at.symbol != nullptr)
            return Hover{safe_lines(symbol_text(view, *at.symbol)), at.begin, at.end};
    }
    if (std::string meaning = word_text_of(word); !meaning.empty())
        return Hover{std::move(meaning), token->begin, token->end};
    return std::nullopt;
}

} // namespace acre::cli
