#include "engine/billing/minimum_again.h"

#include <algorithm>
#include <cmath>

#include "engine/book/price_of.h"
#include "engine/book/texts.h"

namespace acre::engine {

std::optional<double> minimum_again(const QuoteRecord& quote, const RecordItem& item) {
    const std::optional<MadeFrom> made = made_from(quote, quote.option);
    if (!made)
        return std::nullopt;
    UsedTextsLoader loader(made->texts);
    const PricedNow now = price_of(made->request, loader);
    if (!now.estimate || now.estimate->price_cents != quote.price_cents)
        return std::nullopt;
    const PricedJob& job = **now.job;
    std::optional<double> least;
    for (const lang::PriceItem& priced : job.sheet().prices)
        for (const lang::PriceStep& step : priced.steps) {
            if (priced.name != item.name || step.kind != lang::ast::StepKind::AtLeast)
                continue;
            const Slot slot = job.compiled().origins.slot_of_node[step.value];
            const double value = slot == no_slot ? std::nan("") : job.values().slot[slot];
            if (!step.per_unit && !std::isfinite(value))
                return std::nullopt;
            least = std::max(least.value_or(0), step.per_unit ? 0 : value);
        }
    return least;
}

} // namespace acre::engine
