// The smallest job worth it at a market price: the page and the JSON of one answer.
#pragma once

#include <string>

#include "cli/shared/reply.h"
#include "engine/questions/what_if/market.h"

namespace acre::cli {

std::string market_text(const engine::MarketAnswer& answer, bool color);
// Schema acrewright.market/1. Field by field in cli/README.md.
Document market_json(const engine::MarketAnswer& answer);

} // namespace acre::cli
