#include "engine/book/quoted.h"

#include <cmath>

namespace acre::engine {

Quoted quoted_of(const QuoteRecord& quote) {
    Quoted quoted;
    quoted.quote = quote.number;
    quoted.job = quote.title;
    quoted.price = static_cast<double>(quote.price_cents) / 100;
    quoted.overhead = quote.overhead;
    quoted.counted = quote.counted;
    for (const RecordCost& cost : quote.costs)
        quoted.costs.push_back({cost.name, cost.label, cost.part, cost.rate_unit,
                                cost.quantity_unit, cost.rate, cost.quantity});
    for (const RecordLine& line : quote.lines)
        if (!std::isnan(line.value))
            quoted.lines.emplace(line.name, line.value);
    return quoted;
}

} // namespace acre::engine
