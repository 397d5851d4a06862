// Clock times: `19:30`, and how people write them elsewhere.
#include <charconv>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "lang/syntax/formulas.h"
#include "lang/syntax/signs.h"
#include "lang/syntax/syntax_error.h"
#include "lang/syntax/words.h"
#include "lang/units/clock.h"

namespace acre::lang {

namespace {

[[noreturn]] void no_time(Span span, std::string title, std::string label, std::string help,
                          std::string replacement = "") {
    Diagnostic d{Code::S106, std::move(title), {span, std::move(label)}, {}, {}, {}};
    d.helps.push_back({std::move(help), {}});
    if (!replacement.empty())
        d.helps.back().edit = Edit{span, std::move(replacement)};
    throw SyntaxError{std::move(d)};
}

// How many bytes of what follows are `pm`, `p.m.`, ` am`; 0: something else.
std::size_t half_of_day(std::string_view next) {
    std::size_t at = 0;
    while (at < next.size() && next[at] == ' ')
        ++at;
    std::size_t end = at;
    while (end < next.size() && (is_letter(next[end]) || next[end] == '.'))
        ++end;
    if (end == at || (end < next.size() && is_name_char(next[end])))
        return 0;
    if (!clock_of(1, 0, next.substr(at, end - at)))
        return 0;
    return end;
}

int whole(std::string_view digits) {
    int value = -1;
    std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return value;
}

} // namespace

double read_clock(std::string_view text, std::string_view next, Span span) {
    const std::size_t colon = text.find(':');
    const std::string_view minutes = text.substr(colon + 1);
    const int hour = colon <= 2 ? whole(text.substr(0, colon)) : -1;
    const int minute = minutes.size() == 2 ? whole(minutes) : -1;
    if (const std::size_t half = half_of_day(next); half > 0) {
        span.end += static_cast<std::uint32_t>(half);
        if (const auto hours = clock_of(hour, minute, next.substr(0, half)))
            no_time(span, "a clock time is written in 24 hours", "",
                    fmt::format("write  {}", written_clock(*hours)), written_clock(*hours));
        no_time(span, "a clock time is written in 24 hours", "", "write a time such as  19:30");
    }
    if (minutes.size() == 1)
        no_time(span, fmt::format("`{}` is no clock time", shortened(text)),
                "minutes are two digits",
                fmt::format("write  {}:0{}", text.substr(0, colon), minutes));
    if (next.starts_with(':'))
        no_time(span, "a clock time has no seconds", "",
                fmt::format("write hours and minutes:  {}", shortened(text)));
    if (minute < 0 || minute > 59)
        no_time(span, fmt::format("`{}` is no clock time", shortened(text)),
                "an hour has 60 minutes", "write hours and minutes, as in  19:30");
    if (hour < 0 || hour > 24 || (hour == 24 && minute > 0))
        no_time(span, fmt::format("`{}` is no clock time", shortened(text)), "a day has 24 hours",
                "write a time from  0:00  to  24:00; for the day after, add hours to it");
    return hour + minute / 60.0;
}

} // namespace acre::lang
