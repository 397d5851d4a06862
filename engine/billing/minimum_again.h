// The least that an item is billed at where its price has a formula of it: worked out again from
// the texts that the quote was made from.
#pragma once

#include <optional>

#include "engine/book/record.h"

namespace acre::engine {

// In dollars; 0 of one by the unit, which each unit measured has at its rate already. Empty: the
// texts are not carried, or the quote does not come to the price that it was sealed with.
std::optional<double> minimum_again(const QuoteRecord& quote, const RecordItem& item);

} // namespace acre::engine
