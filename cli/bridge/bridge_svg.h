// The bridge between two prices as a step chart: SVG that reads in black and white.
#pragma once

#include <string>

#include "engine/questions/bridge/bridge.h"

namespace acre::cli {

std::string bridge_svg(const engine::BridgeAnswer& bridge);

} // namespace acre::cli
