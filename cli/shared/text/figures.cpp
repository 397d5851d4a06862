#include "cli/shared/text/figures.h"

#include <cmath>

#include "lang/units/number_text.h"

namespace acre::cli {

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

} // namespace acre::cli
