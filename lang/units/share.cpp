#include "lang/units/share.h"

#include <cmath>

#include <fmt/format.h>

#include "lang/units/number_text.h"

namespace acre::lang {
namespace {

// A hundred times the value, as many digits as its author wrote.
std::string in_percent(double value) {
    const double percent = value * 100;
    const double whole = std::round(percent);
    if (std::abs(percent - whole) <= 1e-9 * std::abs(whole))
        return number_text(whole) + " %";
    return fmt::format("{:.12g} %", percent);
}

} // namespace

bool is_share(const Unit& unit) {
    return unit.is_plain() && unit.scale == Ratio{1, 100};
}

ShareMends share_mends(double value, std::string_view written) {
    const std::string as_written = fmt::format("{} %", written);
    if (value > 1)
        return {as_written, in_percent(value), fmt::format("{} times as much would be", written)};
    if (value == 1)
        return {in_percent(value), as_written, "one in a hundred would be"};
    return {in_percent(value), as_written, "less than one in a hundred would be"};
}

} // namespace acre::lang
