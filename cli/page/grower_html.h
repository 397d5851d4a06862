// The page to hand over: what is charged, and nothing of how it came about.
#pragma once

#include <span>
#include <string>

#include "cli/page/collect.h"

namespace acre::cli {

// Items, what the model shows, options at their finished prices, maps, cautions. No engine, no
// script, no texts of the model, season or job, no line that is not shown, no reason.
std::string grower_html(std::span<const CollectedJob> jobs);

} // namespace acre::cli
