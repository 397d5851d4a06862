#include "cli/shared/text/dates.h"

#include <fmt/format.h>

#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {

std::string count_of_days(double days, std::string_view of) {
    return fmt::format("{} {}{}", lang::number_text(days), days == 1 ? "day" : "days", of);
}

std::string dates_words(const engine::DatesAnswer& dates) {
    std::string text = dates.start == dates.finish
                           ? lang::day_text(dates.start)
                           : lang::day_text(dates.start) + " to " + lang::day_text(dates.finish);
    text += ": " + count_of_days(dates.work_days, " of work");
    if (dates.closed_days > 0)
        text += fmt::format(", {} closed", dates.closed_days);
    if (!dates.latest.empty())
        text += fmt::format("; {} {}, the latest end", dates.late ? "late for" : "in time for",
                            lang::day_text(dates.latest));
    return text;
}

} // namespace acre::cli
