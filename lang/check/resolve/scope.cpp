#include "lang/check/resolve/scope.h"

#include <array>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "lang/check/resolve/resolution.h"

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
    explicit Maker(Resolution& r) : r_(r), sources_(r.sources), diagnostics_(r.diagnostics) {}

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
        const Lists& of = scope.lists_of(statement);
        const std::uint32_t part = of.empty() ? none : symbol.part;
        if (scope.runs.empty() || scope.runs.back().part != part)
            scope.runs.push_back({of, part, id, id, 0});
        Run& run = scope.runs.back();
        symbol.run = static_cast<std::uint32_t>(scope.runs.size() - 1);
        symbol.offset = run.lines;
        run.lines += symbol.line_count();
        run.last = id + 1;
        scope.has_costs |= kind == Symbol::Kind::Cost;
        scope.symbols.push_back(symbol);
    }

    void add_part(Scope& scope, std::uint32_t at, const ast::Part& part) {
        scope.part_number[at] = static_cast<std::uint32_t>(scope.parts.size());
        scope.parts.push_back(at);
        scope.part_lists.push_back(r_.lists_of(part));
    }

    void add_alias(Scope& scope, std::uint32_t at, const ast::Use& use, std::uint32_t module) {
        Alias alias;
        alias.span = use.alias ? use.alias->span : use.path.span;
        alias.statement = at;
        alias.module = module;
        alias.own = !use.bindings.empty();
        if (alias.own)
            alias.of = scope.lists_of(scope.module->statements[at]);
        if (use.alias)
            alias.name = use.alias->text;
        else if (module != none)
            alias.name = stem_of(sources_.file(r_.program.modules[module].file).name());
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
    Resolution& r_;
    const SourceMap& sources_;
    Diagnostics& diagnostics_;
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

const Lists& Scope::lists_of(const ast::Statement& statement) const {
    static const Lists no_lists;
    const std::uint32_t part = part_of(statement);
    return part == none ? no_lists : part_lists[part];
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

Scope make_scope(Resolution& r, const ast::Module& module, const std::vector<std::uint32_t>& uses) {
    Scope scope;
    scope.module = &module;
    scope.symbols.reserve(module.statements.size());
    scope.symbol_names.reserve(module.statements.size());
    scope.part_number.assign(module.statements.size(), none);
    Maker maker(r);
    std::size_t next_use = 0;
    for (std::uint32_t at = 0; at < module.statements.size(); ++at) {
        const ast::StatementNode& node = module.statements[at].node;
        Symbol::Kind kind{};
        if (const ast::Word* name = named(node, kind)) {
            maker.add_symbol(scope, at, *name, kind);
        } else if (const auto* part = std::get_if<ast::Part>(&node)) {
            maker.add_part(scope, at, *part);
        } else if (const auto* use = std::get_if<ast::Use>(&node)) {
            maker.add_alias(scope, at, *use, next_use < uses.size() ? uses[next_use] : none);
            ++next_use;
        }
    }
    return scope;
}

} // namespace acre::lang::resolving
