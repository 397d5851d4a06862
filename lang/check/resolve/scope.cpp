#include "lang/check/resolve/scope.h"

#include <array>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "lang/check/resolve/report.h"

namespace acre::lang::resolving {
namespace {

constexpr std::array<std::string_view, 3> cost_suffixes = {"", ".quantity", ".amount"};
constexpr std::array<std::string_view, 3> event_suffixes = {"", ".amount", ".money"};

// The name of a statement that makes lines, and what kind of symbol it is.
const ast::Word* named(const ast::StatementNode& node, Symbol::Kind& kind) {
    if (const auto* given = std::get_if<ast::Given>(&node)) {
        kind = Symbol::Kind::Given;
        return &given->name;
    }
    if (const auto* line = std::get_if<ast::Line>(&node)) {
        kind = Symbol::Kind::Line;
        return &line->name;
    }
    if (const auto* cost = std::get_if<ast::Cost>(&node)) {
        kind = Symbol::Kind::Cost;
        return &cost->name;
    }
    if (const auto* event = std::get_if<ast::Event>(&node)) {
        kind = Symbol::Kind::Event;
        return &event->name;
    }
    return nullptr;
}

class Maker {
  public:
    Maker(const SourceMap& sources, Diagnostics& diagnostics)
        : sources_(sources),
          diagnostics_(diagnostics) {}

    void add_symbol(Scope& scope, std::uint32_t at, const ast::Word& name, Symbol::Kind kind) {
        const ast::Statement& statement = scope.module->statements[at];
        const auto id = static_cast<std::uint32_t>(scope.symbols.size());
        const std::uint32_t there = scope.symbol_names.insert(
            name.text, id, [&](std::uint32_t i) { return scope.symbols[i].name; });
        if (there != NameTable::absent) {
            report_twice(sources_, diagnostics_, fmt::format("`{}` is defined twice", name.text),
                         name.span, scope.symbols[there].span);
            return;
        }
        Symbol symbol{kind, name.text, name.span, at, scope.part_of(statement)};
        symbol.offset = scope.plain_lines + scope.each_lines;
        if (scope.in_each_block(statement)) {
            if (statement.part != each_part_) {
                close_each_part(scope);
                each_part_ = statement.part;
                first_of_part_ = id;
            }
            symbol.each_before = each_before_;
            scope.each_lines += symbol.line_count();
        } else {
            close_each_part(scope);
            symbol.each_before = each_before_;
            scope.plain_lines += symbol.line_count();
        }
        scope.has_costs |= kind == Symbol::Kind::Cost;
        scope.symbols.push_back(symbol);
    }

    // All symbols of an each-block part are known: now they know how many lines it has.
    void close_each_part(Scope& scope) {
        if (each_part_ == none)
            return;
        const std::uint32_t lines = scope.each_lines - each_before_;
        for (std::size_t i = first_of_part_; i < scope.symbols.size(); ++i)
            scope.symbols[i].stride = lines;
        each_before_ = scope.each_lines;
        each_part_ = none;
    }

    void add_alias(Scope& scope, std::uint32_t at, const ast::Use& use, std::uint32_t module,
                   const Program& program) {
        Alias alias;
        alias.span = use.alias ? use.alias->span : use.path.span;
        alias.statement = at;
        alias.module = module;
        alias.own = !use.bindings.empty();
        alias.each_block = alias.own && scope.in_each_block(scope.module->statements[at]);
        if (use.alias)
            alias.name = use.alias->text;
        else if (module != none)
            alias.name = stem_of(sources_.file(program.modules[module].file).name());
        else
            alias.name = stem_of(use.path.text);
        const auto id = static_cast<std::uint32_t>(scope.aliases.size());
        const std::uint32_t there =
            scope.alias_names.insert(alias.name, id, [&](std::uint32_t i) -> std::string_view {
                return scope.aliases[i].name;
            });
        if (there != NameTable::absent) {
            const Alias& first = scope.aliases[there];
            if (alias.own || first.own || first.module != module)
                report_twice(sources_, diagnostics_,
                             fmt::format("two used models are called `{}` here", alias.name),
                             alias.span, first.span,
                             fmt::format("give it another name with `as`, for example  as {}_2",
                                         alias.name));
            if (alias.own)
                alias.module =
                    none; // keep the list in step with the statements, but make no instance
        }
        scope.aliases.push_back(std::move(alias));
    }

  private:
    const SourceMap& sources_;
    Diagnostics& diagnostics_;
    std::uint32_t each_part_ = none; // the each-block part that is open: a statement
    std::size_t first_of_part_ = 0;
    std::uint32_t each_before_ = 0;
};

} // namespace

std::string_view suffix_of(Symbol::Kind kind, std::uint32_t which) {
    return kind == Symbol::Kind::Event ? event_suffixes[which] : cost_suffixes[which];
}

std::uint32_t line_with_suffix(Symbol::Kind kind, std::string_view tail) {
    if (kind != Symbol::Kind::Cost && kind != Symbol::Kind::Event)
        return none;
    for (std::uint32_t which = 1; which < 3; ++which)
        if (suffix_of(kind, which).substr(1) == tail)
            return which;
    return none;
}

const Symbol* Scope::find(std::string_view name) const {
    const std::uint32_t id =
        symbol_names.find(name, [this](std::uint32_t i) { return symbols[i].name; });
    return id == NameTable::absent ? nullptr : &symbols[id];
}

const Alias* Scope::find_alias(std::string_view name) const {
    const std::uint32_t id = alias_names.find(
        name, [this](std::uint32_t i) -> std::string_view { return aliases[i].name; });
    return id == NameTable::absent ? nullptr : &aliases[id];
}

std::uint32_t Scope::part_of(const ast::Statement& statement) const {
    return statement.part < part_number.size() ? part_number[statement.part] : none;
}

bool Scope::in_each_block(const ast::Statement& statement) const {
    const std::uint32_t part = part_of(statement);
    return part != none && std::get<ast::Part>(module->statements[parts[part]].node).each_block;
}

std::string stem_of(std::string_view file_name) {
    const std::size_t slash = file_name.find_last_of("/\\");
    std::string_view stem =
        slash == std::string_view::npos ? file_name : file_name.substr(slash + 1);
    if (const std::size_t dot = stem.rfind('.'); dot != std::string_view::npos && dot > 0)
        stem = stem.substr(0, dot);
    std::string name;
    for (const char c : stem) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        const bool digit = c >= '0' && c <= '9';
        if (digit && name.empty())
            name = "model_"; // a name starts with a letter
        name += letter || digit ? c : '_';
    }
    return name.empty() || name.front() == '_' ? "model" + name : name;
}

Scope make_scope(const ast::Module& module, const std::vector<std::uint32_t>& uses,
                 const Program& program, const SourceMap& sources, Diagnostics& diagnostics) {
    Scope scope;
    scope.module = &module;
    scope.symbols.reserve(module.statements.size());
    scope.symbol_names.reserve(module.statements.size());
    scope.part_number.assign(module.statements.size(), none);
    Maker maker(sources, diagnostics);
    std::size_t next_use = 0;
    for (std::uint32_t at = 0; at < module.statements.size(); ++at) {
        const ast::StatementNode& node = module.statements[at].node;
        Symbol::Kind kind{};
        if (const ast::Word* name = named(node, kind)) {
            maker.add_symbol(scope, at, *name, kind);
        } else if (std::holds_alternative<ast::Part>(node)) {
            maker.close_each_part(scope);
            scope.part_number[at] = static_cast<std::uint32_t>(scope.parts.size());
            scope.parts.push_back(at);
        } else if (const auto* use = std::get_if<ast::Use>(&node)) {
            maker.add_alias(scope, at, *use, next_use < uses.size() ? uses[next_use] : none,
                            program);
            ++next_use;
        }
    }
    maker.close_each_part(scope);
    return scope;
}

} // namespace acre::lang::resolving
