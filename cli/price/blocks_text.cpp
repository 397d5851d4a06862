#include "cli/price/blocks_text.h"

#include <fmt/format.h>

#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::cents_text;
using lang::terminal_text;

std::string figure(const engine::BlockFigure& figure, int decimals) {
    return figure.text.empty() ? ""
                               : terminal_text(fixed_quantity(figure.value, decimals, figure.unit));
}

} // namespace

std::string blocks_text(const engine::BlockPrices& prices, bool color) {
    if (prices.blocks.empty())
        return "\n" + paragraph("This job has no blocks.", "");
    Table ground({{"block", Align::Left, true},
                  {"ripped"},
                  {"depth"},
                  {"soil", Align::Left, true},
                  {"pace"},
                  {"days"}});
    Table money({{"block", Align::Left, true}, {"cost"}, {"price"}, {"price/ac"}});
    for (const engine::BlockPrice& block : prices.blocks) {
        ground.row({terminal_text(block.label), figure(block.acres, 2),
                    terminal_text(block.depth.text), terminal_text(block.soil.text),
                    figure(block.pace, 3), figure(block.days, 1)});
        money.row({terminal_text(block.label), lang::money_text(block.cost),
                   cents_text(block.cents),
                   block.per_acre > 0 ? lang::money_text(block.per_acre) : ""});
    }
    for (const engine::BlockPrices::Shared& shared : prices.shared)
        if (shared.cents != 0)
            money.row({terminal_text(shared.title) + ", all blocks", lang::money_text(shared.cost),
                       cents_text(shared.cents), ""});
    money.row({"all", lang::money_text(prices.cost), cents_text(prices.cents), ""});
    std::string page =
        "\n" + heading("By block", color) + ground.text(color) + "\n" + money.text(color);
    for (const engine::BlockPrices::OneRate& one : prices.one_rate)
        page += paragraph(fmt::format("{} is billed at {}/{} in every block, not at the price/ac "
                                      "above. If a block may measure otherwise than quoted, price "
                                      "it as a job of its own.",
                                      terminal_text(one.title), lang::money_text(one.rate),
                                      terminal_text(one.per)));
    return page;
}

} // namespace acre::cli
