#include "cli/shared/quantity.h"

#include <charconv>
#include <cmath>

#include "lang/diag/safe_text.h"
#include "lang/units/catalog.h"

namespace acre::cli {
namespace {

const lang::UnitCatalog& catalog() {
    static const lang::UnitCatalog units;
    return units;
}
std::optional<lang::Unit> unit_of(std::string_view text) {
    lang::UnitError error{};
    return lang::read_unit(text, catalog(), error);
}

} // namespace

std::optional<double> read_quantity(std::string_view text, std::string_view unit_text,
                                    std::string& reason) {
    std::string digits;
    std::string unit;
    const bool money = text.starts_with('$');
    std::size_t at = money ? 1 : 0;
    for (; at < text.size() &&
           (std::string_view("0123456789.,+-eE").find(text[at]) != std::string_view::npos);
         ++at)
        if (text[at] != ',')
            digits += text[at];
    for (; at < text.size() && text[at] == ' '; ++at) {
    }
    unit = (money ? "$" : "") + std::string(text.substr(at));
    double value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    const std::optional<lang::Unit> from = unit_of(unit.empty() ? "1" : unit);
    const std::optional<lang::Unit> to = unit_of(unit_text);
    if (error != std::errc() || end != digits.data() + digits.size() || !std::isfinite(value))
        reason = "`" + lang::terminal_text(text) + "` does not begin with a number";
    else if (!from)
        reason = "there is no unit `" + lang::terminal_text(unit) + "`";
    else if (from->dim != to->dim)
        reason =
            "`" + lang::terminal_text(text) + "` cannot be a quantity in " + std::string(unit_text);
    else
        return lang::conversion(*from, *to).apply(value);
    return std::nullopt;
}

} // namespace acre::cli
