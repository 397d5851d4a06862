// The dates of a job and the closed days of a season. The fourth part of the assembler.
#include <algorithm>

#include <fmt/format.h>

#include "lang/syntax/assemble.h"
#include "lang/syntax/parse.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::lang {

ast::Dates make_dates(const Draft& d) {
    return {d.dates.front(), d.dates.size() > 1 ? std::optional(d.dates[1]) : std::nullopt};
}

// A job has one date, and says what holds for it.
void Assembler::misplaced_days(Span days) {
    diagnostics_.add(
        {Code::S104,
         "`within` and days stand in a season only",
         {days, "not here"},
         {},
         {},
         {{"leave the days out: what is set here holds for this job, whatever its date", {}}}});
}

ast::Closed Assembler::make_closed(const Draft& d, Span whole) {
    ast::Closed closed{d.weekday, {}, {}, d.label};
    if (++closed_seen_ == max_closed + 1)
        diagnostics_.add({Code::S122,
                          fmt::format("more than {} lines of `closed`", number_text(max_closed)),
                          {whole, "one too many"},
                          {},
                          {},
                          {}});
    if (!d.weekday) {
        closed.first = d.dates.front();
        closed.last = d.dates.back();
        return closed;
    }
    std::optional<Span>& first = closed_weekdays_[static_cast<std::size_t>(*d.weekday)];
    if (first)
        twice(fmt::format("`closed {}`", weekday_name(*d.weekday)), whole, *first);
    first = whole;
    if (std::all_of(closed_weekdays_.begin(), closed_weekdays_.end(),
                    [](const std::optional<Span>& day) { return day.has_value(); }))
        diagnostics_.add({Code::S126,
                          "every day of the week is closed",
                          {whole, "the last of the seven"},
                          {},
                          {},
                          {{"leave the days out on which you work", {}}}});
    return closed;
}

} // namespace acre::lang
