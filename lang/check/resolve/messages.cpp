#include "lang/check/resolve/messages.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lang/check/resolve/lookup.h"
#include "lang/diag/place.h"
#include "lang/diag/suggest.h"

namespace acre::lang::resolving {
namespace {

std::vector<std::string_view> views(const std::vector<std::string>& names) {
    return {names.begin(), names.end()};
}

// Where a name that the place can see is defined; nothing for what has no place of its own.
std::string defined_at(const Resolution& r, const Where& where, std::string_view name,
                       FileId seen_from) {
    const Found found = look_up(r, where, name);
    if (found.state != Found::State::Line)
        return {};
    return fmt::format(" ({})",
                       spoken_place(r.sources, r.sheet.lines[found.line].name_span, seen_from));
}

void add_near(Diagnostic& d, const Resolution& r, const Where& where, std::string_view name,
              const std::vector<std::string>& names) {
    const std::vector<std::string_view> found = near_names(name, views(names));
    for (const std::string_view near : found)
        d.helps.push_back({fmt::format("did you mean `{}`{}?", near,
                                       defined_at(r, where, near, d.primary.span.file)),
                           near_edit(name, found, near, d.primary.span)});
}

// A dotted name whose head is no used model, or whose model has no such line.
Diagnostic unknown_dotted(const Resolution& r, const Where& where, std::string_view name,
                          Span span) {
    const Scope& scope = r.scopes[r.instances[where.instance].module];
    const std::string_view head = name.substr(0, name.find('.'));
    if (const Alias* alias = scope.find_alias(head); alias != nullptr && alias->module != none) {
        Diagnostic d = problem(
            Code::N201,
            fmt::format("`{}` has no line or given named `{}`", head, name.substr(head.size() + 1)),
            span, "not defined there");
        d.notes.push_back(fmt::format("`{}` is {}", head,
                                      r.sources.file(r.scopes[alias->module].module->file).name()));
        std::vector<std::string> names;
        for (const Symbol& symbol : r.scopes[alias->module].symbols)
            names.push_back(fmt::format("{}.{}", head, symbol.name));
        add_near(d, r, where, name, names);
        return d;
    }
    Diagnostic d = problem(Code::N201, fmt::format("no used model is called `{}` here", head), span,
                           "not defined");
    if (const Symbol* symbol = scope.find(head)) {
        d.title = fmt::format("`{}` has no `{}`", head, name.substr(head.size() + 1));
        for (std::uint32_t which = 1; which < symbol->line_count(); ++which)
            d.helps.push_back(
                {fmt::format("write  {}{}", head, suffix_of(symbol->kind, which)), std::nullopt});
        return d;
    }
    std::vector<std::string> aliases;
    for (const Alias& other : scope.aliases)
        aliases.push_back(other.name);
    const auto near = near_names(head, views(aliases));
    for (const std::string_view other : near)
        d.helps.push_back({fmt::format("did you mean `{}`?", other), std::nullopt});
    if (near.empty())
        d.helps.push_back({fmt::format("to use a model, write  use \"{}\"", head), std::nullopt});
    return d;
}

// `$38 / h`, where a unit stands apart from its number.
std::optional<Help> rate_of(const Resolution& r, std::string_view name, Span span) {
    const std::string_view text = r.sources.file(span.file).text();
    const auto back = [text](std::size_t at) {
        while (at > 0 && text[at - 1] == ' ')
            --at;
        return at;
    };
    const std::size_t slash = back(span.begin);
    if (slash == 0 || text[slash - 1] != '/')
        return std::nullopt;
    const std::size_t end = back(slash - 1);
    std::size_t begin = end;
    while (begin > 0 &&
           std::string_view("0123456789.,").find(text[begin - 1]) != std::string_view::npos)
        --begin;
    if (begin == end || begin == 0 || text[begin - 1] != '$')
        return std::nullopt;
    return Help{
        fmt::format("write  ${}/{}", text.substr(begin, end - begin), name),
        Edit{{span.file, static_cast<std::uint32_t>(end), span.end}, fmt::format("/{}", name)}};
}

// What the name is instead, if it means anything at all.
bool add_other_meaning(Diagnostic& d, const Resolution& r, std::string_view name) {
    if (r.find_choice(name) != none) {
        d.notes.push_back(
            fmt::format("`{}` is a kind of choice, not a value; it goes after a colon", name));
        return true;
    }
    for (const ChoiceType& choice : r.sheet.choices) {
        if (std::find(choice.options.begin(), choice.options.end(), name) == choice.options.end())
            continue;
        d.notes.push_back(fmt::format(
            "`{}` is a choice of `{}`; it goes after `is`, or where that choice is expected", name,
            choice.name));
        return true;
    }
    if (r.sheet.units.find(name) != nullptr) {
        d.notes.push_back(fmt::format("`{}` is a unit; units go after a number or a colon", name));
        if (std::optional<Help> rate = rate_of(r, name, d.primary.span))
            d.helps.push_back(std::move(*rate));
        else
            d.helps.push_back({fmt::format("write  1 {}", name), std::nullopt});
        return true;
    }
    return false;
}

std::string form_of(const Resolution& r, const Callable& callable) {
    std::string out = std::string(callable.name) + "(";
    if (callable.kind == Callable::Kind::Table)
        return out + r.sheet.tables[callable.index].parameter_name + ")";
    const Function& function = r.sheet.functions[callable.index];
    const std::size_t fixed = function.parameters.size() - function.columns.size() * function.rows;
    for (std::size_t i = 0; i < fixed; ++i)
        out += (i > 0 ? ", " : "") + function.parameters[i];
    if (!function.list.empty())
        out += (fixed > 0 ? ", each " : "each ") + function.list;
    return out + ")";
}

std::string count_of(std::uint32_t count) {
    return count == 0 ? "none" : fmt::format("{}", count);
}

} // namespace

std::string signature_of(const Resolution& r, const Callable& callable) {
    std::string out = std::string(callable.name) + "(";
    if (callable.kind == Callable::Kind::Table) {
        const Table& table = r.sheet.tables[callable.index];
        return fmt::format("{}{} : {}) : {}", out, table.parameter_name, table.parameter_text,
                           table.result_text);
    }
    const Function& function = r.sheet.functions[callable.index];
    const std::size_t fixed = function.parameters.size() - function.columns.size() * function.rows;
    for (std::size_t i = 0; i < fixed; ++i)
        out += fmt::format("{}{} : {}", i > 0 ? ", " : "", function.parameters[i],
                           function.parameter_texts[i]);
    if (!function.list.empty()) {
        out += fmt::format(") each {} (", function.list);
        for (std::size_t c = 0; c < function.columns.size(); ++c)
            out += fmt::format("{}{} : {}", c > 0 ? ", " : "", function.columns[c],
                               function.parameter_texts[fixed + c]);
    }
    return out + ") : " + function.type_text;
}

bool lost_to_syntax(const Resolution& r, std::string_view name, FileId file) {
    const std::string_view last =
        name.substr(name.rfind('.') == std::string_view::npos ? 0 : name.rfind('.') + 1);
    const std::string_view head = name.substr(0, name.find('.'));
    for (const Diagnostic& d : r.diagnostics.all()) {
        if (name_of(d.code).front() != 'S' || (d.primary.span.file != file && head == last))
            continue;
        const SourceFile& source = r.sources.file(d.primary.span.file);
        std::string_view line = source.line(source.position(d.primary.span.begin).line);
        for (int word = 0; word < 2; ++word) { // `NAME : …`, `given NAME …`
            line.remove_prefix(std::min(line.find_first_not_of(" \t"), line.size()));
            const std::string_view found = line.substr(0, line.find_first_of(" \t:=,()"));
            if (found == last || found == head)
                return true;
            line.remove_prefix(found.size());
        }
    }
    return false;
}

void report_unknown_name(Resolution& r, const Where& where, std::string_view name, Span span) {
    if (lost_to_syntax(r, name, span.file))
        return;
    if (r.diagnostics.full())
        return r.add(problem(Code::N201, fmt::format("no line or given named `{}`", name), span,
                             "not defined"));
    if (const Callable* callable = r.find_callable(name)) {
        const bool table = callable->kind == Callable::Kind::Table;
        return r.add(problem(
            Code::N211,
            fmt::format("`{}` is a {}, not a value", name, table ? "table" : "function"), span,
            "used as a value",
            {fmt::format("give it its values in parentheses: write  {}", form_of(r, *callable))}));
    }
    if (where.function != nullptr) {
        const Function& function = *where.function;
        Diagnostic d = problem(Code::N201,
                               fmt::format("`{}` is not a parameter of `{}`, nor a line inside it",
                                           name, function.name),
                               span, "not defined");
        const std::vector<std::string_view>& known = r.names_of(function).written;
        const std::vector<std::string> names(known.begin(), known.end());
        const std::vector<std::string_view> found = near_names(name, views(names));
        for (const std::string_view near : found)
            d.helps.push_back(
                {fmt::format("did you mean `{}`?", near), near_edit(name, found, near, span)});
        if (d.helps.empty() && !add_other_meaning(d, r, name))
            d.notes.push_back(
                "a function sees only its parameters and its own lines; pass it what it needs");
        return r.add(std::move(d));
    }
    if (where.instance == none) {
        Diagnostic d = problem(Code::N201, fmt::format("`{}` cannot be used here", name), span,
                               "not a number");
        d.notes.push_back("the example of a function uses numbers only");
        return r.add(std::move(d));
    }
    if (name.find('.') != std::string_view::npos)
        return r.add(unknown_dotted(r, where, name, span));
    Diagnostic d =
        problem(Code::N201, fmt::format("no line or given named `{}`", name), span, "not defined");
    if (const Builtin* builtin = find_builtin(name, current_notation)) {
        d.code = Code::N211;
        d.title = fmt::format("`{}` is a function, not a value", name);
        d.helps.push_back(
            {fmt::format("give it its values in parentheses: write  {}", builtin->form),
             std::nullopt});
        return r.add(std::move(d));
    }
    if (!add_other_meaning(d, r, name))
        add_near(d, r, where, name, names_in_sight(r, where.instance, false));
    r.add(std::move(d));
}

void report_unknown_option(Resolution& r, ChoiceId choice, std::string_view option, Span span) {
    const ChoiceType& type = r.sheet.choices[choice];
    Diagnostic d =
        problem(Code::N204, fmt::format("`{}` is not a choice of `{}`", option, type.name), span,
                "not a choice");
    if (r.diagnostics.full())
        return r.add(std::move(d));
    const std::vector<std::string_view> options = views(type.options);
    const std::vector<std::string_view> found = near_names(option, options);
    if (!found.empty())
        d.helps.push_back({fmt::format("write  {}", found.front()),
                           near_edit(option, found, found.front(), span)});
    std::vector<std::string_view> named;
    for (const std::string_view name : options) // a list has one more, of entries that a job lists
        if (!name.empty())
            named.push_back(name);
    d.notes.push_back(fmt::format("the choices of `{}`: {}", type.name, listed(named)));
    r.add(std::move(d));
}

// Below it may stand lines that are not indented: then they change the job itself.
void report_empty_option(Resolution& r, const ast::Option& option) {
    Diagnostic d =
        problem(Code::L825, fmt::format("the option \"{}\" changes nothing", option.title.text),
                option.title.span, "nothing is indented below it");
    d.notes.emplace_back("a `set` that is not indented sets the job itself");
    d.helps.push_back({"indent the lines that belong to it, or take the option out", std::nullopt});
    r.add(std::move(d));
}

void report_call_length(Resolution& r, const Callable& callable, std::uint32_t given,
                        const ast::Word& name) {
    const bool table = callable.kind == Callable::Kind::Table;
    const std::size_t wanted = table ? 1 : r.sheet.functions[callable.index].parameters.size();
    Diagnostic d =
        problem(Code::N206,
                fmt::format("`{}` takes {} value{}, {} given", name.text, wanted,
                            wanted == 1 ? "" : "s", count_of(given)),
                name.span, {}, {fmt::format("its form is  {}", signature_of(r, callable))});
    d.others.push_back({callable.name_span, "defined here"});
    r.add(std::move(d));
}

void report_call_length(Resolution& r, const Builtin& builtin, std::uint32_t given,
                        const ast::Word& name) {
    std::string wanted = fmt::format("{} value{}", builtin.least, builtin.least == 1 ? "" : "s");
    if (builtin.most == none)
        wanted = fmt::format("{} values or more", builtin.least);
    else if (builtin.most > builtin.least)
        wanted = fmt::format("{} or {} values", builtin.least, builtin.most);
    r.add(problem(Code::N206,
                  fmt::format("`{}` takes {}, {} given", name.text, wanted, count_of(given)),
                  name.span, {}, {fmt::format("its form is  {}", builtin.form)}));
}

} // namespace acre::lang::resolving
