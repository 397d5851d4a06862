// The rows of a comparison.
#pragma once

#include <span>

#include "engine/questions/compare/compare.h"
#include "engine/questions/estimate.h"

namespace acre::engine {

struct PricedSide {
    Job job;
    Estimate estimate;
};

// Fills in prices, costs, quantities, differences, the cheapest and why. The columns are named
// already, one for each side, in their order.
void fill_columns(std::span<const PricedSide> sides, CompareAnswer& answer);

// The price of each block, by name, and what rests on no block.
void fill_blocks(std::span<const PricedSide> sides, CompareAnswer& answer);

} // namespace acre::engine
