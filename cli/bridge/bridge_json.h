// Schema acrewright.bridge/1. Field by field in cli/README.md.
#pragma once

#include "cli/shared/reply.h"
#include "engine/questions/bridge/bridge.h"

namespace acre::cli {

Document bridge_json(const engine::BridgeAnswer& bridge);

} // namespace acre::cli
