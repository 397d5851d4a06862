// The statements of a text as an editor lists them, by the notation's own reader.
#include <utility>
#include <variant>

#include "cli/editor/parts_json.h"
#include "cli/shared/files/file_loader.h"
#include "lang/diag/safe_text.h"
#include "lang/syntax/parse.h"

namespace acre::cli {

namespace {

namespace ast = lang::ast;

// As the protocol numbers them.
enum SymbolNumber {
    in_module = 2,
    in_property = 7,
    in_function = 12,
    in_variable = 13,
    in_part = 3
};

struct Listed {
    std::string name, detail;
    lang::Span at;
    int kind = 0; // 0: not listed
};

std::string text_or_none(const std::optional<ast::Text>& text) {
    return text ? std::string(text->text) : std::string();
}

Listed listed(const ast::Word& name, const std::optional<ast::Text>& label, int kind) {
    return {std::string(name.text), text_or_none(label), name.span, kind};
}

Listed listed_of(const ast::StatementNode& node) {
    if (const auto* given = std::get_if<ast::Given>(&node))
        return listed(given->name, given->label, in_property);
    if (const auto* line = std::get_if<ast::Line>(&node))
        return listed(line->name, line->label, in_variable);
    if (const auto* cost = std::get_if<ast::Cost>(&node))
        return listed(cost->name, cost->label, in_variable);
    if (const auto* event = std::get_if<ast::Event>(&node))
        return listed(event->name, event->label, in_variable);
    if (const auto* define = std::get_if<ast::Define>(&node))
        return listed(define->name, define->label, in_function);
    if (const auto* table = std::get_if<ast::Table>(&node))
        return listed(table->name, table->label, in_function);
    if (const auto* set = std::get_if<ast::Set>(&node))
        return listed(set->name, set->because, in_property);
    if (const auto* list = std::get_if<ast::List>(&node))
        return listed(list->name, list->label, in_part);
    if (const auto* entry = std::get_if<ast::Entry>(&node))
        return listed(entry->name, entry->label, in_part);
    if (const auto* price = std::get_if<ast::Price>(&node))
        return {std::string(price->title.text), "price", price->title.span, in_part};
    if (const auto* part = std::get_if<ast::Part>(&node))
        return {std::string(part->title.text), "part", part->title.span, in_part};
    if (const auto* option = std::get_if<ast::Option>(&node))
        return {std::string(option->title.text), "option", option->title.span, in_part};
    if (const auto* use = std::get_if<ast::Use>(&node))
        return {std::string(use->path.text), "use", use->path.span, in_module};
    return {};
}

} // namespace

Json symbols_part(const std::string& file, const std::string& text) {
    lang::FileKind kind = lang::FileKind::Model;
    file_kind(file, kind);
    lang::SourceMap sources;
    lang::Diagnostics unsaid;
    const lang::FileId id = sources.add(file, text);
    const ast::Module module = lang::parse(sources, id, kind, unsaid);
    const TextIndex index(text);
    Json symbols = Json::array();
    std::vector<std::pair<std::uint32_t, std::size_t>> parts; // statement, place in the list
    for (std::uint32_t i = 0; i < module.statements.size(); ++i) {
        const ast::Statement& statement = module.statements[i];
        const Listed one = listed_of(statement.node);
        if (one.kind == 0 || one.name.empty())
            continue;
        Json symbol = {{"name", lang::terminal_text(one.name)},
                       {"detail", lang::terminal_text(one.detail)},
                       {"kind", one.kind},
                       {"range", range_part(index, statement.span.begin, statement.span.end)},
                       {"selectionRange", range_part(index, one.at.begin, one.at.end)}};
        const bool inside = !parts.empty() && statement.part == parts.back().first;
        if (inside) {
            symbols[parts.back().second]["children"].push_back(std::move(symbol));
            continue;
        }
        if (std::holds_alternative<ast::Part>(statement.node)) {
            symbol["children"] = Json::array();
            parts.emplace_back(i, symbols.size());
        }
        symbols.push_back(std::move(symbol));
    }
    return symbols;
}

} // namespace acre::cli
