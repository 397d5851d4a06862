// Figures as pages show them: money, shares and dates. Quantities with their units, and numbers as
// they are, come from lang/units/number_text.h. No page formats a number by itself.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace acre::cli {

// A figure to its nearest whole number: "1,234".
std::string whole_text(double value);

// How many there are: "1,234".
std::string count_text(std::size_t count);

// Money in whole dollars: "$95,078", "-$12". Where cents would only be noise.
std::string whole_dollars(double dollars);

// A difference in money with its sign: "+$4.20", "-$0.07", "$0.00".
std::string money_change(std::int64_t cents);

// A share of 1: "14.8 %", "-3.2 %", with so many decimals.
std::string percent_text(double share, int decimals = 1);

// "2027-06-21" as people write it: "June 21, 2027", and short for a column: "Jun 21, 2027". What is
// no date comes back as it is.
std::string long_date(std::string_view date);
std::string short_date(std::string_view date);

} // namespace acre::cli
