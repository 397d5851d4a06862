// Functions and tables: one of each for the whole compilation, whoever uses the model that writes
// it.
#include <algorithm>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "lang/check/resolve/builtins.h"
#include "lang/check/resolve/formula.h"
#include "lang/check/resolve/resolution.h"
#include "lang/check/resolve/tables.h"
#include "lang/diag/suggest.h"

namespace acre::lang::resolving {
namespace {

// The text of a statement with every run of blanks as one: two copies of one definition are the
// same.
std::string squeezed(std::string_view text) {
    std::string out;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\t' || c == '\n' || c == '\r';
        if (!blank)
            out += c;
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    }
    return out;
}

// False when the name is taken; it is reported unless it is the same definition in another module.
bool is_new(Resolution& r, const Callable& callable) {
    if (find_builtin(callable.name) != nullptr) {
        r.add(problem(Code::N202, fmt::format("`{}` is a built-in function", callable.name),
                      callable.name_span, "taken", {"give it another name"}));
        return false;
    }
    const std::uint32_t there =
        r.callable_names.insert(callable.name, static_cast<std::uint32_t>(r.callables.size()),
                                [&r](std::uint32_t i) { return r.callables[i].name; });
    if (there == NameTable::absent)
        return true;
    const Callable& first = r.callables[there];
    if (first.module == callable.module) {
        report_twice(r.sources, r.diagnostics, fmt::format("`{}` is defined twice", callable.name),
                     callable.name_span, first.name_span);
        return false;
    }
    const auto text = [&r](const Callable& c) {
        return squeezed(r.sources.text(r.program.modules[c.module].statements[c.statement].span));
    };
    if (text(first) != text(callable))
        report_twice(r.sources, r.diagnostics,
                     fmt::format("two used models define `{}` differently", callable.name),
                     callable.name_span, first.name_span, "give one of them another name",
                     Code::N210);
    return false;
}

std::string_view name_in_function(const Function& function, std::uint32_t at) {
    const std::size_t parameters = function.parameters.size();
    return at < parameters ? function.parameters[at] : function.locals[at - parameters].name;
}

void declare_function(Resolution& r, Callable callable, const ast::Define& define, Span span) {
    callable.kind = Callable::Kind::Function;
    callable.index = static_cast<std::uint32_t>(r.sheet.functions.size());
    if (!is_new(r, callable))
        return;
    r.callables.push_back(callable);
    Function function;
    function.name = define.name.text;
    function.name_span = define.name.span;
    function.span = span;
    function.file = span.file;
    function.native = define.native;
    function.label = define.label ? std::string(define.label->text) : std::string();
    function.known = define.known;
    function.type = r.declared_type(define.type);
    function.type_text = full_text(define.type);
    NameTable names;
    const auto name_of = [&function](std::uint32_t i) { return name_in_function(function, i); };
    const auto declare = [&](const ast::Word& name, std::uint32_t at) {
        if (names.insert(name.text, at, name_of) != NameTable::absent)
            r.add(problem(
                Code::N202,
                fmt::format("`{}` appears twice in the function `{}`", name.text, function.name),
                name.span, "again"));
    };
    for (const ast::Parameter& parameter : define.parameters) {
        declare(parameter.name, static_cast<std::uint32_t>(function.parameters.size()));
        function.parameters.emplace_back(parameter.name.text);
        function.parameter_texts.push_back(full_text(parameter.type));
        function.parameter_types.push_back(r.declared_type(parameter.type));
    }
    for (const ast::Line& local : define.locals) {
        declare(local.name,
                static_cast<std::uint32_t>(function.parameters.size() + function.locals.size()));
        function.locals.push_back(
            {std::string(local.name.text), r.declared_type(local.unit), none, local.name.span});
    }
    r.function_names.push_back(std::move(names));
    for (const ast::Text& source : define.sources)
        function.sources.emplace_back(source.text);
    for (const ast::Text& note : define.notes)
        function.notes.emplace_back(note.text);
    r.sheet.functions.push_back(std::move(function));
}

void declare_table(Resolution& r, Callable callable, const ast::Table& table, Span span) {
    callable.index = static_cast<std::uint32_t>(r.sheet.tables.size());
    if (!is_new(r, callable))
        return;
    r.callables.push_back(callable);
    r.sheet.tables.push_back(read_table(r, r.program.modules[callable.module], table, span));
}

void fill_ranges(Resolution& r, const Where& where, const std::vector<ast::ParameterRange>& ranges,
                 std::vector<FunctionRange>& out) {
    const Function& function = *where.function;
    for (const ast::ParameterRange& range : ranges) {
        const std::uint32_t at = r.find_in_function(function, range.name.text);
        if (at >= function.parameters.size()) {
            Diagnostic d = problem(
                Code::N201,
                fmt::format("`{}` is not a parameter of `{}`", range.name.text, function.name),
                range.name.span, "not defined");
            const std::vector<std::string_view> names(function.parameters.begin(),
                                                      function.parameters.end());
            const std::vector<std::string_view> found = near_names(range.name.text, names);
            for (const std::string_view near : found)
                d.helps.push_back({fmt::format("did you mean `{}`?", near),
                                   near_edit(range.name.text, found, near, range.name.span)});
            r.add(std::move(d));
            continue;
        }
        FunctionRange filled;
        filled.parameter = at;
        filled.low = build(r, where, range.range.low);
        filled.high = build(r, where, range.range.high);
        filled.span = range.range.span;
        filled.reason = range.reason ? std::string(range.reason->text) : std::string();
        out.push_back(std::move(filled));
    }
}

void fill_function(Resolution& r, const Callable& callable) {
    const ast::Module& module = r.program.modules[callable.module];
    const auto& define = std::get<ast::Define>(module.statements[callable.statement].node);
    Function& function = r.sheet.functions[callable.index];
    const Where where{&module, none, {}, &function, false};
    if (define.value != ast::none)
        function.value = build(r, where, define.value, choice_of(function.type));
    for (std::size_t i = 0; i < define.locals.size(); ++i)
        function.locals[i].value =
            build(r, where, define.locals[i].value, choice_of(function.locals[i].type));
    fill_ranges(r, where, define.tested, function.tested);
    fill_ranges(r, where, define.limits, function.limits);
    if (!r.program.every_function && callable.module != r.program.model)
        return; // its examples are nobody's business now
    const Where plain{&module, none, {}, nullptr, false};
    for (const ast::Example& example : define.examples) {
        FunctionExample filled;
        filled.call = build(r, plain, example.call);
        filled.expected = build(r, plain, example.expected, choice_of(function.type));
        if (example.tolerance != ast::none)
            filled.tolerance = build(r, plain, example.tolerance);
        filled.span = example.span;
        function.examples.push_back(filled);
    }
}

} // namespace

const Callable* Resolution::find_callable(std::string_view name) const {
    const std::uint32_t id =
        callable_names.find(name, [this](std::uint32_t i) { return callables[i].name; });
    return id == NameTable::absent ? nullptr : &callables[id];
}

std::uint32_t Resolution::find_in_function(const Function& function, std::string_view name) const {
    const auto id = static_cast<std::size_t>(&function - sheet.functions.data());
    return function_names[id].find(
        name, [&function](std::uint32_t i) { return name_in_function(function, i); });
}

void declare_callables(Resolution& r) {
    for (std::uint32_t m = 0; m < r.program.modules.size(); ++m) {
        const ast::Module& module = r.program.modules[m];
        for (std::uint32_t s = 0; s < module.statements.size(); ++s) {
            const ast::Statement& statement = module.statements[s];
            if (const auto* define = std::get_if<ast::Define>(&statement.node))
                declare_function(
                    r, {Callable::Kind::Function, define->name.text, define->name.span, m, s, 0},
                    *define, statement.span);
            else if (const auto* table = std::get_if<ast::Table>(&statement.node))
                declare_table(r,
                              {Callable::Kind::Table, table->name.text, table->name.span, m, s, 0},
                              *table, statement.span);
        }
    }
}

void Resolution::want(const Callable& callable) {
    const auto id = static_cast<std::uint32_t>(&callable - callables.data());
    wanted.resize(callables.size(), false);
    if (wanted[id] || callable.kind != Callable::Kind::Function)
        return;
    wanted[id] = true;
    to_be_filled.push_back(id);
}

void fill_callables(Resolution& r) {
    for (const Callable& callable : r.callables)
        if (r.program.every_function || callable.module == r.program.model)
            r.want(callable);
    // A function that is filled may be the first to call another: the list grows on the way.
    for (std::size_t i = 0; i < r.to_be_filled.size() && !r.full; ++i)
        fill_function(r, r.callables[r.to_be_filled[i]]);
}

} // namespace acre::lang::resolving
