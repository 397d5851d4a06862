#include "engine/book/quoted.h"

#include <algorithm>
#include <cmath>

namespace acre::engine {

std::vector<CountedLine> log_lines(const QuoteRecord& quote) {
    std::vector<CountedLine> lines = quote.counted;
    for (const char* name : {"crew_trips", "nights", "tips_used"}) {
        const auto named = [&](const auto& line) { return line.name == name; };
        const auto line = std::find_if(quote.lines.begin(), quote.lines.end(), named);
        if (line == quote.lines.end() || !std::isfinite(line->value) ||
            std::any_of(lines.begin(), lines.end(), named))
            continue;
        CountedLine extra{line->name, line->unit, Counting::Work, "", line->value, {}, true};
        for (const RecordCost& cost : quote.costs)
            if (line->unit != "1" && cost.quantity_unit == line->unit &&
                std::abs(cost.quantity - line->value) <= 1e-9 * std::abs(line->value))
                extra.costs.push_back(cost.name);
        lines.push_back(std::move(extra));
    }
    return lines;
}

Quoted quoted_of(const QuoteRecord& quote) {
    Quoted quoted;
    quoted.quote = quote.number;
    quoted.job = quote.title;
    quoted.price = static_cast<double>(quote.price_cents) / 100;
    quoted.overhead = quote.overhead;
    quoted.counted = log_lines(quote);
    for (const RecordCost& cost : quote.costs)
        quoted.costs.push_back({cost.name, cost.label, cost.part, cost.rate_unit,
                                cost.quantity_unit, cost.rate, cost.quantity});
    for (const RecordLine& line : quote.lines)
        if (!std::isnan(line.value))
            quoted.lines.emplace(line.name, line.value);
    return quoted;
}

} // namespace acre::engine
