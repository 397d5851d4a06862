#include "cli/bridge/bridge_text.h"
#include "cli/shared/text/figures.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "engine/words/choice_label.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::string side_of(const engine::BridgeChange& change, const std::string& value) {
    return change.choice ? engine::choice_label(value) : value;
}

std::string what(engine::BridgeKind kind) {
    switch (kind) {
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
    return "formulas and values together";
}

std::string bar(double share, double most) {
    constexpr double width = 12;
    const auto size = static_cast<std::size_t>(std::lround(width * std::abs(share) / most));
    return std::string(size, share > 0 ? '+' : '-');
}

std::string kept_words(const engine::BridgeKept& kept) {
    return paragraph(
        fmt::format("At the old price, {}, and with the {} of overhead that it carries, direct "
                    "cost of {} instead of {} leaves a profit of {} instead of {}.",
                    lang::money_text(kept.price), lang::money_text(kept.overhead),
                    lang::money_text(kept.direct_cost_after),
                    lang::money_text(kept.direct_cost_before),
                    lang::money_text(kept.profit_after()), lang::money_text(kept.profit_before())),
        "");
}

} // namespace

std::string bridge_row_words(const engine::BridgeRow& row) {
    if (row.changes.empty())
        return what(row.kind);
    std::string text;
    for (const engine::BridgeChange& change : row.changes)
        text += fmt::format("{}{}: {} to {}", text.empty() ? "" : "; ", change.called(),
                            side_of(change, change.before), side_of(change, change.after));
    if (!row.because.empty())
        text += fmt::format(" ({})", row.because);
    return text;
}

std::string bridge_text(const engine::BridgeAnswer& bridge, bool color) {
    std::string out =
        heading("From one price to the other, in " + lang::terminal_text(bridge.unit), color) +
        not_for_the_customer(color);
    double most = 1e-9;
    for (const engine::BridgeRow& row : bridge.rows)
        most = std::max(most, std::abs(row.share));
    Table table({{"", Align::Right}, {"", Align::Left}, {"", Align::Left, true}});
    const auto end = [&](const engine::BridgeSide& side) {
        table.row({lang::cents_text(side.cents), "", lang::terminal_text(side.label)}, true);
    };
    end(bridge.before);
    for (const engine::BridgeRow& row : bridge.rows)
        table.row({money_change(row.cents), bar(row.share, most),
                   lang::terminal_text(bridge_row_words(row))});
    end(bridge.after);
    table.row({money_change(bridge.after.cents - bridge.before.cents), "", "total change"});
    out += table.text(color);
    if (bridge.kept)
        out += "\n" + kept_words(*bridge.kept);
    out +=
        "\n" +
        paragraph(
            bridge.exact
                ? "Each change is credited with its average effect over every order in which the "
                  "changes could be made, so no order is favored. The rows add up to the cent."
                : "Each change is credited with its average effect over 1,024 of the orders in "
                  "which "
                  "the changes could be made. The rows add up to the cent.",
            "");
    return out;
}

} // namespace acre::cli
