// Bindings: values of the model that says `use`, set on the givens of the instance it makes.
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lang/check/resolve/formula.h"
#include "lang/check/resolve/lookup.h"
#include "lang/check/resolve/messages.h"
#include "lang/check/resolve/resolution.h"
#include "lang/diag/suggest.h"

namespace acre::lang::resolving {
namespace {

void report_unbound(Resolution& r, const ast::Use& use, const ast::Word& name, const Scope& used,
                    const Symbol* computed) {
    if (lost_to_syntax(r, name.text, used.module->file))
        return;
    Diagnostic d = problem(
        computed != nullptr ? Code::I606 : Code::I601,
        computed != nullptr
            ? fmt::format("`{}` is computed in \"{}\" and cannot be set", name.text, use.path.text)
            : fmt::format("\"{}\" has no given named `{}`", use.path.text, name.text),
        name.span, "not a given");
    if (computed != nullptr)
        d.others.push_back({computed->span, "computed here"});
    std::vector<std::string_view> names;
    for (const Symbol& other : used.symbols)
        if (!r.diagnostics.full() && other.kind == Symbol::Kind::Given)
            names.push_back(other.name);
    const std::vector<std::string_view> found = near_names(name.text, names);
    for (const std::string_view near : found)
        d.helps.push_back({fmt::format("did you mean `{}`?", near),
                           near_edit(name.text, found, near, name.span)});
    r.add(std::move(d));
}

void lay(Resolution& r, std::uint32_t id) {
    const Instance& instance = r.instances[id];
    if (instance.owner == none)
        return;
    const Instance& owner = r.instances[instance.owner];
    const Scope& scope = r.scopes[owner.module];
    const Alias& alias = scope.aliases[instance.alias];
    if (!alias.own)
        return;
    const auto& use = std::get<ast::Use>(scope.module->statements[alias.statement].node);
    const Where where = r.where(instance.owner, instance.at);
    const Scope& used = r.scopes[instance.module];
    NameTable bound;
    const auto name_of = [&use](std::uint32_t i) { return use.bindings[i].name.text; };
    for (std::size_t i = 0; i < use.bindings.size() && !r.full; ++i) {
        const ast::Binding& binding = use.bindings[i];
        const std::uint32_t first =
            bound.insert(binding.name.text, static_cast<std::uint32_t>(i), name_of);
        if (first != NameTable::absent) {
            report_set_twice(r, binding.name, use.bindings[first].name.span);
            continue;
        }
        const Symbol* symbol = used.find(binding.name.text);
        if (symbol == nullptr || symbol->kind != Symbol::Kind::Given) {
            report_unbound(r, use, binding.name, used, symbol);
            continue;
        }
        const ast::Module& module = *scope.module;
        const Span span = binding.value < module.exprs.size()
                              ? join(binding.name.span, module.exprs[binding.value].span)
                              : binding.name.span;
        const Lists& of = used.lists_of(*symbol);
        for (std::uint32_t c = 0; c < r.copies(of, instance.at); ++c) {
            const Entries at = r.copy(of, instance.at, c);
            const Line& line = r.sheet.lines[line_of(r, id, *symbol, 0, at)];
            r.sheet.givens[line.given].settings.push_back(
                {Layer::Binding, span, build(r, where, binding.value, choice_of(line.type)), {}});
        }
    }
}

} // namespace

void lay_bindings(Resolution& r) {
    for (std::uint32_t i = 0; i < r.instances.size() && !r.full; ++i)
        lay(r, i);
}

} // namespace acre::lang::resolving
