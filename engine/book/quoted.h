// A quote as variance asks for it.
#pragma once

#include "engine/book/record.h"
#include "engine/questions/variance.h"

namespace acre::engine {

Quoted quoted_of(const QuoteRecord& quote);

// What a log of the job may have columns for: what its model counts, and what every crew's log may
// say of trips, nights and tips where the job reckons with them.
std::vector<CountedLine> log_lines(const QuoteRecord& quote);

} // namespace acre::engine
