#include "cli/shared/quantity.h"

#include <charconv>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "lang/units/catalog.h"
#include "lang/units/share.h"

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

// As in the notation: "2,600", not "20,00" nor "4,0".
bool commas_group(std::string_view text) {
    const auto digit = [&](std::size_t i) {
        return i < text.size() && text[i] >= '0' && text[i] <= '9';
    };
    for (std::size_t i = 0; i < text.size(); ++i)
        if (text[i] == ',' && !(i > 0 && digit(i - 1) && digit(i + 1) && digit(i + 2) &&
                                digit(i + 3) && !digit(i + 4)))
            return false;
    return true;
}

// What the notation says of a bare number where a share is declared (S124).
lang::Diagnostic no_share(std::string_view where, std::string_view written, double value) {
    const lang::ShareMends mends = lang::share_mends(std::abs(value), written);
    return lang::placeless(lang::Code::S124,
                           std::string(where) + "`" + std::string(written) + "` is no share", {},
                           {"write  " + mends.likely, mends.why + "  " + mends.other});
}

} // namespace

lang::Outcome<double> read_quantity(std::string_view text, std::string_view unit_text,
                                    std::string_view where) {
    const auto unread = [&](std::string why) {
        return lang::placeless(lang::Code::C003, std::string(where) + std::move(why));
    };
    const std::string quoted = "`" + std::string(text) + "`";
    if (!commas_group(text))
        return unread("the comma in " + quoted + " does not group three digits");
    std::string digits;
    const bool money = text.starts_with('$');
    std::size_t at = money ? 1 : 0;
    for (; at < text.size() &&
           (std::string_view("0123456789.,+-eE").find(text[at]) != std::string_view::npos);
         ++at)
        if (text[at] != ',')
            digits += text[at];
    for (; at < text.size() && text[at] == ' '; ++at) {
    }
    const std::string unit = (money ? "$" : "") + std::string(text.substr(at));
    double value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    const std::optional<lang::Unit> from = unit_of(unit.empty() ? "1" : unit);
    const std::optional<lang::Unit> to = unit_of(unit_text.empty() ? "1" : unit_text);
    if (error != std::errc() || end != digits.data() + digits.size() || !std::isfinite(value))
        return unread(quoted + " does not start with a number");
    if (!from)
        return unread("unknown unit `" + unit + "`");
    if (!to || from->dim != to->dim)
        return unread(quoted + " is not a quantity in " +
                      (unit_text.empty() ? "plain numbers" : std::string(unit_text)));
    if (unit.empty() && value != 0 && lang::is_share(*to))
        return no_share(where, std::string_view(text).substr(text.starts_with('-') ? 1 : 0), value);
    return lang::conversion(*from, *to).apply(value);
}

} // namespace acre::cli
