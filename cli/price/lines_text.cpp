#include "cli/price/lines_text.h"

#include "cli/shared/text/page.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

using lang::terminal_text;

// Those of used models only where all are asked for.
bool is_shown(const engine::LineEntry& line, const PricePage& page) {
    if (!page.part.empty() && line.part != page.part)
        return false;
    return page.all_quantities || line.name.find('.') == std::string::npos;
}

} // namespace

std::string lines_text(const engine::PriceAnswer& answer, const PricePage& page) {
    std::string out;
    for (std::size_t i = 0; i < answer.lines.size();) {
        const std::string part = answer.lines[i].part;
        Table table({{"", Align::Left, true}, {""}, {"", Align::Left}});
        for (; i < answer.lines.size() && answer.lines[i].part == part; ++i) {
            const engine::LineEntry& line = answer.lines[i];
            const bool named = page.names || line.label.empty();
            if (is_shown(line, page))
                table.row({terminal_text(named ? line.name : line.label), terminal_text(line.text),
                           named ? "" : terminal_text(line.name)});
        }
        if (!table.empty())
            out += "\n" + bold(part.empty() ? "Lines" : terminal_text(part), page.color) + "\n" +
                   table.text(page.color);
    }
    return out;
}

} // namespace acre::cli
