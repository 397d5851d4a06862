#include "cli/shared/clock.h"

#include <array>
#include <charconv>
#include <chrono>
#include <ctime>

#include <fmt/format.h>

namespace acre::cli {
namespace {

constexpr std::array month_names{"January",   "February", "March",    "April",
                                 "May",       "June",     "July",     "August",
                                 "September", "October",  "November", "December"};

} // namespace

std::string today() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    return fmt::format("{:04}-{:02}-{:02}", local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

std::optional<long> day_number(std::string_view date) {
    int year = 0;
    unsigned month = 0;
    unsigned day = 0;
    const auto part = [&](std::size_t from, std::size_t size, auto& to) {
        const auto [end, error] =
            std::from_chars(date.data() + from, date.data() + from + size, to);
        return error == std::errc() && end == date.data() + from + size;
    };
    if (date.size() != 10 || date[4] != '-' || date[7] != '-' || !part(0, 4, year) ||
        !part(5, 2, month) || !part(8, 2, day))
        return std::nullopt;
    const std::chrono::year_month_day when{std::chrono::year{year}, std::chrono::month{month},
                                           std::chrono::day{day}};
    if (!when.ok() || year < 1900)
        return std::nullopt;
    return std::chrono::sys_days{when}.time_since_epoch().count();
}

std::string date_text(long day) {
    const std::chrono::year_month_day when{
        std::chrono::sys_days{std::chrono::days{static_cast<int>(day)}}};
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(when.year()),
                       static_cast<unsigned>(when.month()), static_cast<unsigned>(when.day()));
}

std::string day_text(long day) {
    const std::chrono::year_month_day when{
        std::chrono::sys_days{std::chrono::days{static_cast<int>(day)}}};
    return fmt::format("{} {}, {}", month_names[static_cast<unsigned>(when.month()) - 1],
                       static_cast<unsigned>(when.day()), static_cast<int>(when.year()));
}

std::string month_text(int year, int month) {
    return fmt::format("{} {}", month_names[static_cast<std::size_t>(month - 1)], year);
}

std::string day_text(std::string_view date) {
    const std::optional<long> day = day_number(date);
    return day ? day_text(*day) : std::string(date);
}

} // namespace acre::cli
