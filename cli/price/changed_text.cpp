#include "cli/price/changed_text.h"

#include "cli/bridge/bridge_text.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/words.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

std::string changed_text(const engine::ChangedPrice& changed, bool color) {
    Table table({{"", Align::Left, true}, {"in the files"}, {"with --set"}, {"difference"}});
    for (const engine::ChangedFigure& figure : changed.figures)
        table.row({figure.label, lang::terminal_text(figure.before_text),
                   lang::terminal_text(figure.after_text),
                   figure.unit == "$" ? dollar_change(figure.after - figure.before)
                                      : shown_change(figure.after - figure.before, figure.unit)},
                  figure.name == "price.total" || figure.name == "profit.total");
    std::string out = "\n" + bold("What --set changes", color) + "\n" + table.text(color);
    if (!changed.why)
        return out;
    Table why({{""}, {"", Align::Left, true}});
    for (const engine::BridgeRow& row : changed.why->rows)
        if (row.cents != 0)
            why.row({money_change(row.cents), lang::terminal_text(bridge_row_words(row))});
    return out + why.text(color);
}

} // namespace acre::cli
