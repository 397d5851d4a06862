#include "cli/bridge/bridge_text.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include <fmt/format.h>

#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::string price(std::int64_t cents, const std::string& unit) {
    return lang::cents_text(cents) + unit.substr(1);
}
std::string signed_price(std::int64_t cents) {
    return (cents > 0 ? "+" : "") + lang::cents_text(cents);
}

std::string what(const engine::BridgeRow& row) {
    switch (row.kind) {
    case engine::BridgeKind::Model:
        return "formulas of the models";
    case engine::BridgeKind::Library:
        return "formulas of the library";
    case engine::BridgeKind::Rounding:
        return "rounding to cents";
    case engine::BridgeKind::Given:
    case engine::BridgeKind::Together:
        break;
    }
    std::string text;
    for (const std::string& name : row.names)
        text += (text.empty() ? "" : " and ") + lang::terminal_text(name);
    return text.empty() ? "formulas and values together" : text;
}

std::string bar(double share, double most) {
    constexpr double width = 12;
    const auto size = static_cast<std::size_t>(std::lround(width * std::abs(share) / most));
    return std::string(size, share > 0 ? '+' : '-');
}

} // namespace

std::string bridge_row_text(const engine::BridgeRow& row) {
    std::string text = what(row);
    if (!row.before.empty())
        text += fmt::format(": {} to {}", lang::terminal_text(row.before),
                            lang::terminal_text(row.after));
    if (!row.because.empty())
        text += fmt::format(" ({})", lang::terminal_text(row.because));
    return text;
}

std::string bridge_text(const engine::Bridge& bridge, const BridgeNames& names, bool color) {
    std::string out = bold("From one price to the other", color) + "\n";
    out += fmt::format("  {:>14}  {}\n", price(bridge.before_cents, bridge.unit), names.before);
    double most = 1e-9;
    for (const engine::BridgeRow& row : bridge.rows)
        most = std::max(most, std::abs(row.share));
    Table table({{"", Align::Right}, {"", Align::Left}, {"", Align::Left, true}});
    for (const engine::BridgeRow& row : bridge.rows) {
        table.row({fmt::format("{:>14}", signed_price(row.cents)), bar(row.share, most),
                   bridge_row_text(row)});
    }
    out += table.text(color);
    out += fmt::format("  {:>14}  {}\n", price(bridge.after_cents, bridge.unit), names.after);
    out +=
        fmt::format("  {:>14}  in all\n", signed_price(bridge.after_cents - bridge.before_cents));
    out += "\n" +
           wrap(bridge.exact ? "Each share is the mean of what the change adds over every order in "
                               "which the changes could have come, so it "
                               "depends on no order and the rows add up to the cent."
                             : "Each share is the mean of what the change adds over 1,024 orders "
                               "in which the changes could have come; the rows "
                               "add up to the cent.",
                page_width) +
           "\n";
    return out;
}

} // namespace acre::cli
