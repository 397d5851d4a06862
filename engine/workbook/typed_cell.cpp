#include "engine/workbook/typed_cell.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "engine/log/log_cells.h"
#include "lang/units/clock.h"
#include "lang/units/money.h"

namespace acre::engine {

namespace {

// "$1,234.50" → 1234.5; "12 CHF" where that is the firm's money.
std::optional<double> money_typed(std::string text, bool semicolons) {
    const std::string_view money = lang::shown_money().word();
    if (const std::size_t at = text.find(money); at != std::string::npos)
        text.erase(at, money.size());
    return figure_in(text, semicolons);
}

// "17:30", "17:30:00", "5:30 PM", or hours after midnight. Not 0.73, which may be hours and may be
// a part of a day.
std::optional<double> time_of_day(std::string_view text, bool semicolons) {
    const std::size_t colon = text.find(':');
    if (colon == std::string_view::npos) {
        const std::optional<double> hours = figure_in(text, semicolons);
        return hours && (*hours == 0 || std::fabs(*hours) >= 1) ? hours : std::nullopt;
    }
    const auto two = [](std::string_view digits) {
        int value = 0;
        const auto [end, error] =
            std::from_chars(digits.data(), digits.data() + digits.size(), value);
        return error == std::errc() && end == digits.data() + digits.size() && digits.size() <= 2
                   ? value
                   : -1;
    };
    std::string_view half = text;
    half.remove_prefix(std::min(text.find_first_not_of("0123456789:"), text.size()));
    std::string_view rest = text.substr(colon + 1, text.size() - half.size() - colon - 1);
    if (const std::size_t seconds = rest.find(':'); seconds != std::string_view::npos) {
        if (two(rest.substr(seconds + 1)) != 0)
            return std::nullopt;
        rest = rest.substr(0, seconds);
    }
    half.remove_prefix(std::min(half.find_first_not_of(' '), half.size()));
    const int hour = two(text.substr(0, colon));
    const int minute = two(rest);
    if (!half.empty())
        return lang::clock_of(hour, minute, half);
    return hour < 0 || hour > 24 || minute < 0 || minute > 59 ? std::nullopt
                                                              : std::optional(hour + minute / 60.0);
}

// "5 %" or "5"; not 0.05, which a spreadsheet makes of a typed 5 %.
std::optional<double> share_typed(std::string_view text, bool semicolons) {
    const bool signed_so = text.ends_with('%');
    if (signed_so)
        text.remove_suffix(1);
    const std::optional<double> value = figure_in(text, semicolons);
    return signed_so || !value || *value == 0 || std::fabs(*value) >= 1 ? value : std::nullopt;
}

} // namespace

std::optional<double> figure_typed(std::string_view text, std::string_view unit, bool semicolons) {
    if (unit == lang::clock_unit)
        return time_of_day(text, semicolons);
    return unit == "%" ? share_typed(text, semicolons) : money_typed(std::string(text), semicolons);
}

std::string number_help(const std::string& unit) {
    if (unit == "1")
        return "write a number";
    if (unit == "%")
        return "write 5 or 5 % for 5 %";
    if (unit == "clock")
        return "write the time of day: half past seven in the morning is 7:30";
    return "write the number alone; it counts in " + unit;
}

std::string cell_written(double value, const std::string& unit) {
    if (unit == lang::clock_unit)
        return lang::written_clock(value);
    std::array<char, 400> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), std::fabs(value),
                                   std::chars_format::fixed)
                         .ptr;
    const std::string digits(buffer.data(), end);
    const std::string minus = value < 0 ? "-" : "";
    if (const std::size_t sign = lang::money_sign_size(unit))
        return minus + unit.substr(0, sign) + digits + unit.substr(sign);
    return minus + digits + (unit == "1" ? "" : " " + unit);
}

} // namespace acre::engine
