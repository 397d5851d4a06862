// Lines with their values: of a model that has formulas and no price, or of one part.
#pragma once

#include <string>

#include "cli/price/price_text.h"

namespace acre::cli {

// Part by part, or of the one that the page asks for: what people call it, its value, its name.
// Begins with an empty line; empty: there is no such part.
std::string lines_text(const engine::PriceAnswer& answer, const PricePage& page);

} // namespace acre::cli
