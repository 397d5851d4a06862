// Schema acrewright.price/2: the price of a job for other programs. Field by field in
// cli/README.md.
#pragma once

#include <optional>

#include "cli/shared/reply.h"
#include "engine/questions/changed.h"
#include "engine/questions/price.h"

namespace acre::cli {

// The answer must have its lines. `changed`: by `--set`.
Document price_json(const engine::PriceAnswer& answer,
                    const std::optional<engine::ChangedPrice>& changed = {});

} // namespace acre::cli
