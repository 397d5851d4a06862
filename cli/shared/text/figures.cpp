#include "cli/shared/text/figures.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lang/diag/safe_text.h"
#include "lang/units/money.h"
#include "lang/units/number_text.h"

namespace acre::cli {

namespace {

// The place of the second digit: 0.01 of 0.25, 10 of 480.
double second_place(double value) {
    return std::pow(10, std::floor(std::log10(value)) - 1);
}

std::string with_plus(bool plus, std::string text) {
    return plus ? "+" + text : text;
}

} // namespace

std::string count_text(std::size_t count) {
    return lang::number_text(static_cast<double>(count));
}

std::string whole_dollars(double dollars) {
    return lang::money_text(dollars, 0);
}

std::string money_change(std::int64_t cents) {
    return with_plus(cents > 0, lang::cents_text(cents));
}

std::string dollar_change(double dollars) {
    const double least = lang::shown_money().decimals() == 0 ? 0.5 : 0.005;
    return with_plus(dollars >= least, lang::money_text(dollars));
}

std::string percent_text(double share, int decimals) {
    return std::isnan(share) ? "no answer" : lang::fixed_text(share * 100, decimals) + " %";
}

std::string percent_change(double share, int decimals) {
    return with_plus(share >= 0, percent_text(share, decimals));
}

std::string whole_text(double value) {
    return lang::fixed_text(value, 0);
}

std::string fixed_quantity(double value, int decimals, std::string_view unit) {
    return lang::fixed_text(value, decimals).append(" ").append(unit);
}

std::string rounded_quantity(double value, int decimals, std::string_view unit) {
    const double power = std::pow(10, decimals);
    return lang::number_text(std::round(value * power) / power).append(" ").append(unit);
}

std::string error_text(double error) {
    if (!std::isfinite(error))
        return "-";
    if (error < 1e-9) // what is left of rounding
        return "0";
    const double place = second_place(error);
    return lang::number_text(std::round(error / place) * place);
}

std::string estimate_text(double value, double error, std::string_view unit) {
    if (!std::isfinite(value))
        return "-";
    if (error > 0 && std::isfinite(error)) {
        double place = second_place(error);
        if (lang::money_in(unit) > 0)
            place = error >= 1 || lang::shown_money().decimals() == 0 ? std::max(1.0, place) : 0.01;
        value = std::round(value / place) * place;
    }
    return lang::terminal_text(lang::quantity_text(value, unit));
}

std::string bare_text(double value) {
    return std::isfinite(value) ? fmt::format("{}", value) : "";
}

std::string bare_text(double value, int decimals) {
    return std::isfinite(value) ? fmt::format("{:.{}f}", value, decimals) : "";
}

} // namespace acre::cli
