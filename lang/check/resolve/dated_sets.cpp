#include "lang/check/resolve/dated_sets.h"

#include <fmt/format.h>

#include "lang/check/resolve/messages.h"
#include "lang/check/resolve/set_messages.h"
#include "lang/units/calendar.h"

namespace acre::lang {
namespace {

long day_of(const ast::Date& date) {
    return day_number(date.year, date.month, date.day);
}
const ast::Date& last_of(const ast::Dates& days) {
    return days.last ? *days.last : days.first;
}

} // namespace

bool DatedSet::holds_on(long day) const {
    return day_of(within.first) <= day && day <= day_of(last_of(within));
}

std::string days_text(const ast::Dates& days) {
    const std::string first = date_text(day_of(days.first));
    return days.last ? fmt::format("{} .. {}", first, date_text(day_of(*days.last))) : first;
}

namespace resolving {
namespace {

bool meet(const ast::Dates& a, const ast::Dates& b) {
    return day_of(a.first) <= day_of(last_of(b)) && day_of(b.first) <= day_of(last_of(a));
}

void report_days_twice(Resolution& r, const ast::Set& again, const ast::Set& first) {
    Diagnostic d =
        problem(Code::I604, fmt::format("`{}` is set twice for the same days", again.name.text),
                again.name.span, fmt::format("within {}", days_text(*again.within)));
    d.others.push_back({first.name.span, fmt::format("within {}", days_text(*first.within))});
    d.helps.push_back({"let one begin on the day after the other ends", std::nullopt});
    r.add(std::move(d));
}

void warn_of_no_date(Resolution& r, const ast::Set& set) {
    Diagnostic d = problem(
        Code::L839,
        fmt::format("the season sets `{}` by the day, and the job has no date", set.name.text),
        r.program.modules[r.program.job].title.span, "no `date`");
    d.others.push_back({set.name.span, fmt::format("within {}", days_text(*set.within))});
    d.notes.emplace_back("it is priced with what holds for the rest of the year");
    d.helps.push_back({"say when it may start, as in  date 2027-06-21", std::nullopt});
    r.add(std::move(d));
}

} // namespace

DatedSets::DatedSets(Resolution& r) : r_(r) {
    if (r.program.job == none)
        return;
    for (const ast::Statement& statement : r.program.modules[r.program.job].statements)
        if (const auto* dates = std::get_if<ast::Dates>(&statement.node))
            date_ = dates->first;
}

bool DatedSets::take(const ast::Set& set, LineId line, std::uint32_t over) {
    auto& before = before_[{line, over}];
    for (const ast::Set* other : before)
        if (meet(*set.within, *other->within)) {
            report_days_twice(r_, set, *other);
            return false;
        }
    before.push_back(&set);
    DatedSet dated{r_.sheet.lines[line].name, set.name.span, *set.within};
    dated.in_force = date_ && dated.holds_on(day_of(*date_));
    if (!date_ && r_.program.job != none)
        warn_of_no_date(r_, set);
    r_.sheet.job.dated_sets.push_back(std::move(dated));
    return r_.sheet.job.dated_sets.back().in_force;
}

} // namespace resolving
} // namespace acre::lang
