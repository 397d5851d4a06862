// What a price leaves, on the page of `price`.
#pragma once

#include <string>

#include "engine/questions/estimate.h"

namespace acre::cli {

// Contribution, overhead and profit, and in one line what the profit is made of. Begins with an
// empty line.
std::string earnings_text(const engine::Estimate& estimate, bool color);

} // namespace acre::cli
