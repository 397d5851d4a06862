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

void report_before_outside(Resolution& r, const Where& where, const Found& found, Span span) {
    const std::string list = list_name(r, found, where);
    Diagnostic d = problem(Code::N218, fmt::format("`before` stands outside the list `{}`", list),
                           span, "before which one?",
                           {"for all of them, write  sum(…)",
                            fmt::format("move this line into a part `each {}`", list)});
    d.others.push_back({r.sheet.lines[found.line].name_span, "defined here"});
    r.add(std::move(d));
}

} // namespace acre::lang::resolving
