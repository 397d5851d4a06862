#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "lang/check/resolve/lookup.h"
#include "lang/check/resolve/messages.h"
#include "lang/check/resolve/other_functions.h"
#include "lang/diag/suggest.h"

namespace acre::lang::resolving {
namespace {

std::uint32_t module_of(const Resolution& r, FileId file) {
    for (std::uint32_t m = 0; m < r.program.modules.size(); ++m)
        if (r.program.modules[m].file == file)
            return m;
    return none;
}

// Why a function that another module has does not count here: this one has one of that name, which
// is told to differ; or it uses that module in a loop, and the use was taken out.
bool was_told(const Resolution& r, std::uint32_t from, std::uint32_t module,
              std::string_view name) {
    const std::vector<std::uint32_t>& uses = r.program.uses[from];
    if (std::find(uses.begin(), uses.end(), module) != uses.end())
        return true;
    for (const ast::Statement& statement : r.program.modules[from].statements) {
        const auto* define = std::get_if<ast::Define>(&statement.node);
        const auto* table = std::get_if<ast::Table>(&statement.node);
        if ((define != nullptr && define->name.text == name) ||
            (table != nullptr && table->name.text == name))
            return true;
    }
    return false;
}

// How a text refers to the file of a module: by its name in the same folder, else as the first text
// does that uses it.
std::string reference_to(const Resolution& r, std::uint32_t from, std::uint32_t module) {
    const auto file_name = [&](std::uint32_t m) -> std::string_view {
        return r.sources.file(r.program.modules[m].file).name();
    };
    std::string_view path = file_name(module);
    if (path.ends_with(".rate"))
        path.remove_suffix(5);
    const std::size_t folder = path.rfind('/') + 1;
    if (path.substr(0, folder) == file_name(from).substr(0, file_name(from).rfind('/') + 1))
        return std::string(path.substr(folder));
    for (std::uint32_t m = 0; m < r.program.uses.size(); ++m) {
        std::size_t which = 0;
        for (const ast::Statement& statement : r.program.modules[m].statements)
            if (const auto* use = std::get_if<ast::Use>(&statement.node);
                use != nullptr && which < r.program.uses[m].size() &&
                r.program.uses[m][which++] == module)
                return std::string(use->path.text);
    }
    return std::string(path.substr(folder));
}

} // namespace

void report_unknown_function(Resolution& r, const Where& where, const ast::Word& name) {
    if (lost_to_syntax(r, name.text, name.span.file))
        return;
    if (const Callable* callable = r.find_callable(name.text)) { // there is one, out of sight
        const std::uint32_t from = module_of(r, name.span.file);
        if (from == none || was_told(r, from, callable->module, name.text))
            return;
        const SourceFile& file = r.sources.file(r.program.modules[callable->module].file);
        return r.add(problem(
            Code::N205, fmt::format("no function or table named `{}` is available here", name.text),
            name.span, fmt::format("defined in {}", file.name()),
            {fmt::format("use the model that defines it: write  use \"{}\"",
                         reference_to(r, from, callable->module))}));
    }
    if (where.function == nullptr && where.instance != none &&
        look_up(r, where, name.text).state == Found::State::Line)
        return r.add(problem(Code::N211, fmt::format("`{}` is a value, not a function", name.text),
                             name.span, "called",
                             {fmt::format("to multiply, write  {} * (…)", name.text)}));
    Diagnostic d = problem(Code::N205, fmt::format("no function or table named `{}`", name.text),
                           name.span, "not defined");
    if (r.diagnostics.full())
        return r.add(std::move(d));
    std::vector<std::string_view> names;
    for (const Builtin& builtin : builtins)
        names.push_back(builtin.name);
    for (const Callable& callable : r.callables)
        names.push_back(callable.name);
    if (const std::string_view form = form_of_other(name.text); !form.empty()) {
        d.helps.push_back({fmt::format("write  {}", form), std::nullopt});
        return r.add(std::move(d));
    }
    const std::vector<std::string_view> found = near_names(name.text, names);
    for (const std::string_view near : found) {
        const Callable* callable = r.find_callable(near);
        const std::string form = callable != nullptr
                                     ? signature_of(r, *callable)
                                     : std::string(find_builtin(near, current_notation)->form);
        d.helps.push_back(
            {fmt::format("did you mean  {}", form), near_edit(name.text, found, near, name.span)});
    }
    r.add(std::move(d));
}

} // namespace acre::lang::resolving
