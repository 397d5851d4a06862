// The bridge between two prices as a step chart: SVG that reads in black and white.
#pragma once

#include <string>

#include "engine/questions/bridge/bridge.h"

namespace acre::cli {

// `before` and `after`: what the sides are called; escaped here.
std::string bridge_svg(const engine::Bridge& bridge, const std::string& before,
                       const std::string& after);

} // namespace acre::cli
