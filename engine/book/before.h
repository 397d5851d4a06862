// What records of earlier versions do not say, worked out from what they do.
#pragma once

#include "engine/book/record.h"

namespace acre::engine {

// Before models said what a log counts, it was the hours of one machine, acres, gallons and days,
// by the names that their lines had in most models.
void count_as_before(QuoteRecord& quote);

} // namespace acre::engine
