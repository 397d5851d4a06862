#include "lang/units/clock.h"

#include <cmath>

#include <fmt/format.h>

#include "lang/units/letters.h"
#include "lang/units/number_text.h"

namespace acre::lang {
namespace {

constexpr double minutes_a_day = 24 * 60;
constexpr double most_days = 10'000; // further off it is no time of a day: a plain number

std::string time_of_day(int minutes) {
    if (minutes == 12 * 60)
        return "noon";
    const int hour = minutes / 60;
    return fmt::format("{}:{:02} {}", hour % 12 == 0 ? 12 : hour % 12, minutes % 60,
                       hour < 12 ? "am" : "pm");
}

std::string days_off(double days) {
    const double count = std::abs(days);
    const std::string_view side = days < 0 ? "before" : "after";
    return count == 1 ? fmt::format(" the day {}", side)
                      : fmt::format(" {} days {}", number_text(count), side);
}

} // namespace

std::string clock_text(double hours) {
    if (!std::isfinite(hours) || std::abs(hours) > most_days * 24)
        return number_text(hours) + (std::isnan(hours) ? "" : " h after midnight");
    const double minutes = std::round(hours * 60);
    if (minutes == minutes_a_day)
        return "midnight";
    const double days = std::floor(minutes / minutes_a_day);
    const std::string time = time_of_day(static_cast<int>(minutes - days * minutes_a_day));
    return days == 0 ? time : time + days_off(days);
}

std::string written_clock(double hours) {
    const double minutes = std::round(hours * 60);
    if (!(minutes >= 0 && minutes <= minutes_a_day) || std::abs(hours * 60 - minutes) > 1e-6)
        return fmt::format("{} {}", number_text(hours), clock_unit);
    const int whole = static_cast<int>(minutes);
    return fmt::format("{}:{:02}", whole / 60, whole % 60);
}

std::optional<double> clock_of(int hour, int minute, std::string_view half) {
    std::string letters;
    for (const char c : half)
        if (c != '.' && c != ' ')
            letters += to_lower(c);
    const bool after = letters == "pm" || letters == "p";
    if (!after && letters != "am" && letters != "a")
        return std::nullopt;
    if (hour < 1 || hour > 12 || minute < 0 || minute > 59)
        return std::nullopt;
    return hour % 12 + (after ? 12 : 0) + minute / 60.0;
}

bool is_half_of_day(std::string_view word) {
    return clock_of(1, 0, word).has_value();
}

std::string_view unit_of_difference(std::string_view unit_text) {
    return unit_text == clock_unit ? "h" : unit_text;
}

} // namespace acre::lang
