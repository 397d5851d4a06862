// The bridge between two prices, as lines with bars for a terminal.
#pragma once

#include <string>

#include "engine/questions/bridge/bridge.h"

namespace acre::cli {

struct BridgeNames {
    std::string before, after; // "quote 2027-003, 2027-03-14", safe to show
};
// "spacing: 7 ft to 8 ft (soft ground)"
std::string bridge_row_text(const engine::BridgeRow& row);
std::string bridge_text(const engine::Bridge& bridge, const BridgeNames& names, bool color);

} // namespace acre::cli
