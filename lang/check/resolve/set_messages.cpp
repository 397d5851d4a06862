#include "lang/check/resolve/set_messages.h"

#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lang/check/resolve/lookup.h"
#include "lang/diag/suggest.h"

namespace acre::lang::resolving {

void report_set_twice(Resolution& r, const ast::Word& name, Span first) {
    Diagnostic d =
        problem(Code::I604, fmt::format("`{}` is set twice", name.text), name.span, "again");
    d.others.push_back({first, "first here"});
    d.helps.push_back({"keep one of the two", std::nullopt});
    r.add(std::move(d));
}

void report_computed(Resolution& r, const ast::Word& name, LineId line) {
    const Line& there = r.sheet.lines[line];
    Diagnostic d = problem(Code::I606, fmt::format("`{}` is computed and cannot be set", name.text),
                           name.span, "not a given");
    d.others.push_back({there.name_span, "computed here"});
    const std::string_view formula =
        there.value == none ? std::string_view() : r.sources.text(r.sheet.nodes[there.value].span);
    if (there.role == Role::Line && !formula.empty() && formula.size() < 60 &&
        formula.find('\n') == std::string_view::npos)
        d.helps.push_back(
            {fmt::format("to let people set it, make it a given in the model: write  given {} "
                         ": {} = {}",
                         name.text.substr(name.text.rfind('.') + 1), there.unit_text, formula),
             std::nullopt});
    r.add(std::move(d));
}

void report_not_of_entry(Resolution& r, const ast::Word& name, LineId line) {
    Diagnostic d =
        problem(Code::I601,
                fmt::format("`{}` has one value for the whole job; no entry can set it", name.text),
                name.span, "not of this list");
    d.others.push_back({r.sheet.lines[line].name_span, "defined here"});
    d.helps.push_back({"set it in the job, outside the entries", std::nullopt});
    r.add(std::move(d));
}

bool report_no_such_entry(Resolution& r, const ast::Word& name) {
    const std::size_t dot = name.text.find('.');
    if (dot == std::string_view::npos || r.entries.empty())
        return false;
    const Found found = look_up(r, 0, name.text.substr(dot + 1), {});
    if (found.state != Found::State::Line || found.of.empty())
        return false;
    const List& list = r.lists[found.of.innermost()];
    if (list.entries.empty())
        return false;
    const std::string_view head = name.text.substr(0, dot);
    Diagnostic d = problem(Code::I607, fmt::format("the job has no {} `{}`", list.name, head),
                           name.span, fmt::format("no such {}", list.name));
    const auto near = near_names(head, list.entries);
    for (const std::string_view other : near)
        d.helps.push_back({fmt::format("write  {}{}", other, name.text.substr(dot)), std::nullopt});
    d.notes.push_back(fmt::format("they are {}", listed(list.entries)));
    r.add(std::move(d));
    return true;
}

} // namespace acre::lang::resolving
