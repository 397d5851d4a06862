#include "lang/units/calendar.h"

#include <array>
#include <charconv>
#include <chrono>

#include <fmt/format.h>

namespace acre::lang {
namespace {

using std::chrono::sys_days;
using std::chrono::year_month_day;

constexpr std::array<std::string_view, 12> months{"January",   "February", "March",    "April",
                                                  "May",       "June",     "July",     "August",
                                                  "September", "October",  "November", "December"};

constexpr std::array<std::string_view, 7> weekdays{"sunday",   "monday", "tuesday", "wednesday",
                                                   "thursday", "friday", "saturday"};
constexpr std::array<std::string_view, 7> large_weekdays{
    "Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};

year_month_day calendar_day(long day) {
    return sys_days{std::chrono::days{static_cast<int>(day)}};
}

std::string dated(std::string_view month, const year_month_day& day) {
    return fmt::format("{} {}, {}", month, static_cast<unsigned>(day.day()),
                       static_cast<int>(day.year()));
}

int month_of(const year_month_day& day) {
    return static_cast<int>(static_cast<unsigned>(day.month()));
}

} // namespace

int days_in_month(int year, int month) {
    const auto last = std::chrono::year{year} / month / std::chrono::last;
    return static_cast<int>(static_cast<unsigned>(last.day()));
}

long day_number(int year, int month, int day) {
    return sys_days{std::chrono::year{year} / month / day}.time_since_epoch().count();
}

std::optional<long> day_number(std::string_view date) {
    const auto part = [&](std::size_t from, std::size_t size) {
        int value = -1;
        const char* const begin = date.data() + from;
        const auto [end, error] = std::from_chars(begin, begin + size, value);
        return error == std::errc() && end == begin + size ? value : -1;
    };
    if (date.size() != 10 || date[4] != '-' || date[7] != '-')
        return std::nullopt;
    const int year = part(0, 4);
    const int month = part(5, 2);
    const int day = part(8, 2);
    if (year < first_year || month < 1 || month > 12 || day < 1 || day > days_in_month(year, month))
        return std::nullopt;
    return day_number(year, month, day);
}

std::optional<std::string> date_after(std::string_view date, long days) {
    static const long last = day_number(last_year, 12, 31);
    const std::optional<long> from = day_number(date);
    if (!from || days > last - *from)
        return std::nullopt;
    return date_text(*from + days);
}

std::string date_text(long day) {
    const year_month_day when = calendar_day(day);
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(when.year()), month_of(when),
                       static_cast<unsigned>(when.day()));
}

std::string_view month_name(int month) {
    return months.at(static_cast<std::size_t>(month - 1));
}

std::string day_text(long day) {
    const year_month_day when = calendar_day(day);
    return dated(month_name(month_of(when)), when);
}

std::string month_text(int year, int month) {
    return fmt::format("{} {}", month_name(month), year);
}

std::string day_text(std::string_view date) {
    const std::optional<long> day = day_number(date);
    return day ? day_text(*day) : std::string(date);
}

std::string short_day_text(std::string_view date) {
    const std::optional<long> day = day_number(date);
    if (!day)
        return std::string(date);
    const year_month_day when = calendar_day(*day);
    return dated(month_name(month_of(when)).substr(0, 3), when);
}

int weekday_of(long day) {
    return static_cast<int>(
        std::chrono::weekday{sys_days{std::chrono::days{static_cast<int>(day)}}}.c_encoding());
}

std::string_view weekday_name(int weekday) {
    return weekdays.at(static_cast<std::size_t>(weekday));
}

std::string weekday_text(long day) {
    return fmt::format("{}, {}", large_weekdays.at(static_cast<std::size_t>(weekday_of(day))),
                       day_text(day));
}

std::string_view short_weekday(int weekday) {
    return large_weekdays.at(static_cast<std::size_t>(weekday)).substr(0, 3);
}

int month_count(long day) {
    const year_month_day when = calendar_day(day);
    return static_cast<int>(when.year()) * 12 + month_of(when) - 1;
}

} // namespace acre::lang
