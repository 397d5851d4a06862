#include "engine/words/billing.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "engine/words/money.h"
#include "lang/units/money.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

constexpr double counted_whole_from = 100;
constexpr int most_decimals = 9;

double billed_quantity(double quantity, bool counted) {
    if (!(quantity > 0 && quantity < 1e12))
        return quantity;
    const std::int64_t hundredths =
        to_cents(quantity, counted && quantity >= counted_whole_from ? 100 : 1);
    return hundredths > 0 ? static_cast<double>(hundredths) / 100 : quantity;
}

// The rate to four decimals, if it has no more of them.
std::optional<double> stated_rate(double rate) {
    const double parts = rate * 10'000;
    const double whole = std::round(parts);
    if (!(std::fabs(parts) < 1e12) || std::fabs(parts - whole) > 1e-10 * std::fabs(parts))
        return std::nullopt;
    return whole / 10'000;
}

} // namespace

Billed bill(double amount, double quantity, bool counted, std::int64_t step) {
    Billed result;
    result.quantity = billed_quantity(quantity, counted);
    const std::optional<double> stated =
        quantity > 0 ? stated_rate(amount / quantity) : std::nullopt;
    result.cents = to_cents(stated ? *stated * result.quantity : amount, step);
    if (!(result.quantity > 0)) {
        result.rate = amount / quantity;
        return result;
    }
    const double whole = static_cast<double>(result.cents) / 100 / result.quantity;
    double parts = 100;
    for (int decimals = 2; decimals <= most_decimals; ++decimals, parts *= 10) {
        result.rate = std::round(whole * parts) / parts;
        if (to_cents(result.rate * result.quantity, step) == result.cents)
            return result;
    }
    result.rate = whole;
    return result;
}

std::string billed_rate_text(double rate, std::string_view per) {
    if (!std::isfinite(rate))
        return lang::quantity_text(rate, fmt::format("$/{}", per));
    std::array<char, 400> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), std::fabs(rate),
                                   std::chars_format::fixed)
                         .ptr;
    const auto* const point = std::find(buffer.data(), end, '.');
    const int decimals = point == end ? 0 : static_cast<int>(end - point) - 1;
    return fmt::format(
        "{}/{}", lang::money_text(rate, std::max(decimals, lang::shown_money().decimals())), per);
}

} // namespace acre::engine
