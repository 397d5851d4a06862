// A quote as variance asks for it.
#pragma once

#include "engine/book/record.h"
#include "engine/questions/variance.h"

namespace acre::engine {

Quoted quoted_of(const QuoteRecord& quote);

} // namespace acre::engine
