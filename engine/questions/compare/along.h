// Two ways to look along a given: where columns cost the same, and the price of each over a range.
#pragma once

#include <span>
#include <string>

#include "engine/questions/compare/columns.h"

namespace acre::engine {

// Each side against the first one, by the price per unit. Q009 without a second side; what
// break_even_against says.
lang::Outcome<CompareFlips> flips_over(std::span<const PricedSide> sides, const std::string& given);

// What a grid over the given says.
lang::Outcome<CompareOver> prices_over(std::span<const PricedSide> sides,
                                       const CompareQuestion::Over& over);

} // namespace acre::engine
