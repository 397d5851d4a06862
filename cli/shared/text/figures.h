// Figures as pages and CSV show them: money, shares, rounded quantities. Quantities as an author
// writes them, and numbers as they are, come from lang/units/number_text.h; dates from
// lang/units/calendar.h. No page formats a number by itself.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

namespace acre::cli {

// A figure to its nearest whole number: "1,234", "0" for -0.4.
std::string whole_text(double value);

// How many there are: "1,234".
std::string count_text(std::size_t count);

// Money in whole dollars: "$95,078", "-$12". Where cents would only be noise.
std::string whole_dollars(double dollars);

// A difference in money with its sign: "+$4.20", "-$0.07", "$0.00".
std::string money_change(std::int64_t cents);
std::string dollar_change(double dollars);

// A share of 1: "14.8 %", "-3.2 %", with so many decimals; and as a change: "+0.42 %".
std::string percent_text(double share, int decimals = 1);
std::string percent_change(double share, int decimals = 2);

// So many decimals, for a column ("32.0 h"), or no more than so many ("5 ft", "5.25 ft").
std::string fixed_quantity(double value, int decimals, std::string_view unit);
std::string rounded_quantity(double value, int decimals, std::string_view unit);

// A standard error: its first two digits, all that it has to say. "-" where there is none.
std::string error_text(double error);
// What was estimated with this standard error, in no more digits than the error leaves; money with
// an error of a dollar or more has no cents. Safe to show.
std::string estimate_text(double value, double error, std::string_view unit);

// For other programs, as in CSV: no thousands apart, no unit; all digits, or so many decimals.
// Empty for what is no number.
std::string bare_text(double value);
std::string bare_text(double value, int decimals);

} // namespace acre::cli
