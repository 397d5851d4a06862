#include <cmath>

#include <fmt/format.h>

#include "cli/break_even/market_page.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/words.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

constexpr std::size_t most_ranges = 4; // of one threshold on a page

const char* aim_words(engine::MarketAim aim) {
    switch (aim) {
    case engine::MarketAim::DirectCost:
        return "covers direct cost";
    case engine::MarketAim::Overhead:
        return "covers overhead too";
    case engine::MarketAim::FullMargin:
        break;
    }
    return "leaves the full margin";
}

// "from 56.18 ac", "up to 40 ac", "from 20 ac to 40 ac; from 44 ac", "never", "always"
std::string where(const engine::MarketAnswer& answer, const engine::MarketThreshold& threshold) {
    const auto x = [&](double value) { return shown(answer.given, value); };
    std::string text;
    std::size_t told = 0;
    for (const engine::Range& range : threshold.covered) {
        if (told++ == most_ranges)
            return text + "; and more";
        const bool from_low = range.low <= answer.range.low,
                   to_high = range.high >= answer.range.high;
        text += text.empty() ? "" : "; ";
        text += from_low && to_high ? "always"
                : to_high           ? "from " + x(range.low)
                : from_low          ? "up to " + x(range.high)
                                    : "from " + x(range.low) + " to " + x(range.high);
    }
    return text.empty() ? "never" : text;
}

} // namespace

std::string market_text(const engine::MarketAnswer& answer, bool color) {
    const std::string rate =
        lang::terminal_text(lang::quantity_text(answer.rate, "$/" + answer.per));
    std::string out =
        heading(capital(called(answer.given)) + " at which " + rate + ", all in, is worth it",
                color) +
        not_for_the_customer(color);
    if (!answer.title.empty())
        out += remark(lang::terminal_text(answer.title));
    out += "\n";
    Table table({{"", Align::Left, true}, {"", Align::Left}});
    for (const engine::MarketThreshold& threshold : answer.thresholds)
        table.row({aim_words(threshold.aim), where(answer, threshold)},
                  threshold.aim == engine::MarketAim::Overhead);
    out += table.text(color) + "\n";
    out += remark(fmt::format("Between {} and {}; this job has {}. The move and every lump sum are "
                              "in it.",
                              shown(answer.given, answer.range.low),
                              shown(answer.given, answer.range.high),
                              shown(answer.given, answer.value)));
    out += remark("Each size is a job of its own, with the overhead that its price would carry. "
                  "The full margin is the price that this model would ask.");
    return out;
}

} // namespace acre::cli
