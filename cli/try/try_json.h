// A formula that was tried, as JSON.
#pragma once

#include "cli/shared/reply.h"
#include "engine/questions/try_formula.h"

namespace acre::cli {

Document try_json(const engine::TryAnswer& answer);

} // namespace acre::cli
