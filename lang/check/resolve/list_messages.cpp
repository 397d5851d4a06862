// The messages about lines that there are several of, one for each entry of a list.
#include <string>
#include <utility>

#include <fmt/format.h>

#include "lang/check/resolve/messages.h"

namespace acre::lang::resolving {

std::string list_name(const Resolution& r, const Found& found, const Where& where) {
    const Lists open = r.open(found.of, where.at);
    return open.empty() ? "entry" : std::string(r.lists[open.innermost()].name);
}

void report_read_from_outside(Resolution& r, const Where& where, std::string_view name, Span span,
                              const Found& found) {
    const std::string list = list_name(r, found, where);
    Diagnostic d = problem(
        Code::N215,
        fmt::format("`{}` has a value for each {}; use sum, most or least here", name, list), span,
        fmt::format("one value for each {}", list));
    d.others.push_back(
        {r.sheet.lines[found.line].name_span, fmt::format("defined in a part `each {}`", list)});
    d.helps.push_back({fmt::format("for all together, write  sum({})", name),
                       Edit{span, fmt::format("sum({})", name)}});
    d.helps.push_back({fmt::format("move this line into a part `each {}`", list), std::nullopt});
    r.add(std::move(d));
}

void report_not_of_list(Resolution& r, std::string_view function, std::string_view argument,
                        Span span, LineId line) {
    if (line == none) {
        r.add(problem(Code::N213,
                      fmt::format("`{}` takes the name of a line of an `each` part", function),
                      span, "not a name",
                      {fmt::format("make  {}  a line of the `each` part, and name that line here",
                                   argument)}));
        return;
    }
    Diagnostic d = problem(
        Code::N213,
        fmt::format("`{}` has one value for the whole job; there is no list to take {} of",
                    argument, function == "sum" ? "the sum" : fmt::format("the {}", function)),
        span, "not in an `each` part");
    d.others.push_back({r.sheet.lines[line].name_span, "defined here"});
    d.helps.push_back({fmt::format("write  {}", argument), std::nullopt});
    r.add(std::move(d));
}

void report_choice_before(Resolution& r, Span span) {
    r.add(
        problem(Code::U309,
                fmt::format("`before` adds up numbers, and `{}` is a choice", r.sources.text(span)),
                span, "a choice"));
}

void report_before_outside(Resolution& r, const Where& where, const Found& found, Span span) {
    const std::string list = list_name(r, found, where);
    Diagnostic d = problem(Code::N218, fmt::format("`before` stands outside the list `{}`", list),
                           span, "before which one?",
                           {"for all of them, write  sum(…)",
                            fmt::format("move this line into a part `each {}`", list)});
    d.others.push_back({r.sheet.lines[found.line].name_span, "defined here"});
    r.add(std::move(d));
}

void report_call_over_list(Resolution& r, const Callable& callable, const ast::Call& call,
                           const ast::Each* each) {
    const Function& function = r.sheet.functions[callable.index];
    const std::size_t columns = function.columns.size();
    const std::size_t fixed = function.parameters.size() - columns;
    const auto values = [](std::size_t count) {
        return fmt::format("{} value{}", count, count == 1 ? "" : "s");
    };
    Diagnostic d = problem(Code::N206, {}, call.function.span, {},
                           {fmt::format("its form is  {}", signature_of(r, callable))});
    if (each == nullptr) {
        d.title = fmt::format("`{}` takes a list, and none is given", function.name);
        d.helps.push_back({fmt::format("write  each {}  as the last in the parentheses, or rows of "
                                       "your own behind it",
                                       function.list),
                           {}});
    } else if (each->list.text != function.list) {
        d.title = fmt::format("`{}` takes `each {}`, not `each {}`", function.name, function.list,
                              each->list.text);
        d.primary.span = each->list.span;
    } else if (call.arg_count != fixed) {
        d.title = fmt::format("`{}` takes {} before the list, {} given", function.name,
                              values(fixed), call.arg_count);
    } else {
        for (const ast::Row& row : each->rows)
            if (row.arg_count != columns && d.title.empty()) {
                d.title = fmt::format("a row of `{}` has {}, {} given", function.name,
                                      values(columns), row.arg_count);
                d.primary.span = row.span;
            }
    }
    d.others.push_back({callable.name_span, "defined here"});
    r.add(std::move(d));
}

void report_takes_no_list(Resolution& r, const ast::Word& function, Span list) {
    r.add(problem(Code::N206, fmt::format("`{}` takes no list", function.text), list,
                  "not a value of it", {"leave  each  out, or take the list by  sum(…)"}));
}

void report_no_column(Resolution& r, const Callable& callable, std::string_view column,
                      const ast::Word& list) {
    const Function& function = r.sheet.functions[callable.index];
    std::string unit;
    for (std::size_t c = 0; c < function.columns.size(); ++c)
        if (function.columns[c] == column)
            unit =
                function.parameter_texts[function.parameters.size() - function.columns.size() + c];
    Diagnostic d =
        problem(Code::N219,
                fmt::format("`{}` takes `{}` of each {}, and there is no such line here",
                            function.name, column, list.text),
                list.span, fmt::format("no `{}`", column),
                {fmt::format("in a part `each {}`, write  {} : {} = …", list.text, column, unit)});
    d.others.push_back({callable.name_span, "defined here"});
    r.add(std::move(d));
}

void report_no_entries_here(Resolution& r, const Where& where, const ast::Word& list) {
    Diagnostic d = problem(
        Code::N219, fmt::format("`{}` has no entries to be seen here", list.text), list.span,
        "none here", {"write rows of your own:  each " + std::string(list.text) + " (…), (…)"});
    if (where.function != nullptr)
        d.notes.push_back(fmt::format("a function sees the rows that it is called with: `{}` takes "
                                      "none of this list",
                                      where.function->name));
    r.add(std::move(d));
}

void report_column_outside(Resolution& r, const Where& where, std::string_view name, Span span) {
    const std::string& list = where.function->list;
    Diagnostic d = problem(
        Code::N215,
        fmt::format("`{}` has a value for each {}; use sum, most or least here", name, list), span,
        fmt::format("one value for each {}", list));
    d.helps.push_back({fmt::format("for all together, write  sum({})", name),
                       Edit{span, fmt::format("sum({})", name)}});
    d.helps.push_back(
        {"or give it a line of its own in this function: that is one for each row", {}});
    r.add(std::move(d));
}

} // namespace acre::lang::resolving
