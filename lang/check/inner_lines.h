// What is nobody's business outside the firm: rates and amounts of costs, the steps from cost to
// price and the lines that they name, what is left of the price.
#pragma once

#include <vector>

#include "lang/check/sheet.h"

namespace acre::lang {

// By LineId. The amounts, rates and quantities of the prices are not among them, nor the minimum,
// which is told.
std::vector<bool> inner_lines(const Sheet& sheet);

// The other way round: what every customer reads, whatever the model shows.
std::vector<bool> price_lines(const Sheet& sheet);

} // namespace acre::lang
