// Schema acrewright.price/1: the price of a job for other programs. Field by field in
// cli/README.md.
#pragma once

#include "cli/shared/reply.h"
#include "engine/questions/price.h"

namespace acre::cli {

// The answer must have its lines.
Document price_json(const engine::PriceAnswer& answer);

} // namespace acre::cli
