// What each block has of a price, as a table.
#pragma once

#include <string>

#include "engine/questions/block_prices.h"

namespace acre::cli {

std::string blocks_text(const engine::BlockPrices& prices, bool color = false);

} // namespace acre::cli
