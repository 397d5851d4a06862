#include "engine/job/work_calendar.h"

#include <algorithm>

#include "lang/units/calendar.h"

namespace acre::engine {

long day_of(const lang::ast::Date& date) {
    return lang::day_number(date.year, date.month, date.day);
}

WorkCalendar::WorkCalendar(const std::vector<lang::ast::Closed>& closed) {
    for (const lang::ast::Closed& one : closed) {
        if (one.weekday)
            weekday_closed_[*one.weekday] = true;
        else
            spans_.push_back({day_of(one.first), day_of(one.last),
                              one.label ? std::string(one.label->text) : std::string()});
    }
    std::vector<Span> sorted = spans_;
    std::sort(sorted.begin(), sorted.end(),
              [](const Span& a, const Span& b) { return a.first < b.first; });
    for (Span& span : sorted)
        if (!merged_.empty() && span.first <= merged_.back().last)
            merged_.back().last = std::max(merged_.back().last, span.last);
        else
            merged_.push_back({span.first, span.last, {}});
}

long WorkCalendar::closed_until(long day) const {
    const auto after = std::upper_bound(merged_.begin(), merged_.end(), day,
                                        [](long d, const Span& span) { return d < span.first; });
    if (after != merged_.begin() && std::prev(after)->last >= day)
        return std::prev(after)->last;
    return weekday_closed_[lang::weekday_of(day)] ? day : day - 1;
}

long WorkCalendar::next_open(long day) const {
    for (long until = closed_until(day); until >= day; until = closed_until(day))
        day = until + 1;
    return day;
}

int WorkCalendar::open_weekdays() const {
    return 7 - static_cast<int>(
                   std::count(std::begin(weekday_closed_), std::end(weekday_closed_), true));
}

std::string WorkCalendar::why_closed(long day) const {
    bool in_span = false;
    for (const Span& span : spans_) {
        if (day < span.first || day > span.last)
            continue;
        in_span = true;
        if (!span.label.empty())
            return span.label;
    }
    if (weekday_closed_[lang::weekday_of(day)] || in_span)
        return "closed";
    return {};
}

} // namespace acre::engine
