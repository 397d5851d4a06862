#include "cli/shared/text/figures.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "cli/shared/clock.h"
#include "lang/units/number_text.h"

namespace acre::cli {

namespace {

constexpr std::array<std::string_view, 12> months{"January",   "February", "March",    "April",
                                                  "May",       "June",     "July",     "August",
                                                  "September", "October",  "November", "December"};

std::string_view month_name(int month) {
    return months[static_cast<std::size_t>(std::clamp(month, 1, 12) - 1)];
}

// `letters`: of the month that are kept.
std::string dated(std::string_view date, std::size_t letters) {
    if (!day_number(date))
        return std::string(date);
    const auto digits = [&](std::size_t at) { return (date[at] - '0') * 10 + date[at + 1] - '0'; };
    std::string text(month_name(digits(5)).substr(0, letters));
    return text.append(" ")
        .append(std::to_string(digits(8)))
        .append(", ")
        .append(date.substr(0, 4));
}

} // namespace

std::string whole_text(double value) {
    return lang::number_text(std::round(value) + 0.0); // never "-0"
}

std::string count_text(std::size_t count) {
    return lang::number_text(static_cast<double>(count));
}

std::string whole_dollars(double dollars) {
    const std::string digits = lang::fixed_text(dollars, 0);
    return digits.starts_with('-') ? "-$" + digits.substr(1)
           : std::isnan(dollars)   ? digits
                                   : "$" + digits;
}

std::string money_change(std::int64_t cents) {
    return (cents > 0 ? "+" : "") + lang::cents_text(cents);
}

std::string percent_text(double share, int decimals) {
    return std::isnan(share) ? "no answer" : lang::fixed_text(share * 100, decimals) + " %";
}

std::string long_date(std::string_view date) {
    return dated(date, std::string_view::npos);
}

std::string short_date(std::string_view date) {
    return dated(date, 3);
}

} // namespace acre::cli
