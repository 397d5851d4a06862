// Schema acrewright.bridge/1. Field by field in cli/README.md.
#pragma once

#include <string>

#include "engine/questions/bridge/bridge.h"

namespace acre::cli {

std::string bridge_json(const engine::Bridge& bridge, const std::string& before,
                        const std::string& after);

} // namespace acre::cli
