// The bridge between two prices, as lines with bars for a terminal.
#pragma once

#include <cstdint>
#include <string>

#include "engine/questions/bridge/bridge.h"

namespace acre::cli {

std::string bridge_text(const engine::BridgeAnswer& bridge, bool color);

// "spacing of pulls: 7 ft to 8 ft (soft ground)"; as written: make it safe where it goes.
std::string bridge_row_words(const engine::BridgeRow& row);

} // namespace acre::cli
