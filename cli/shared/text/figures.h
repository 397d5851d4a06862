// Figures as pages show them: money and shares. Quantities with their units, and numbers as
// they are, come from lang/units/number_text.h. No page formats a number by itself.
#pragma once

#include <cstdint>
#include <string>

namespace acre::cli {

// Money in whole dollars: "$95,078", "-$12". Where cents would only be noise.
std::string whole_dollars(double dollars);

// A difference in money with its sign: "+$4.20", "-$0.07", "$0.00".
std::string money_change(std::int64_t cents);

// A share of 1: "14.8 %", "-3.2 %", with so many decimals.
std::string percent_text(double share, int decimals = 1);

} // namespace acre::cli
