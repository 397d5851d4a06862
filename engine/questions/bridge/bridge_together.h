// Which changes of a bridge belong together: a value that one side does not use (pulls per tree row
// of a field that is ripped all over) says nothing without the change that makes it used.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/bridge/bridge_changes.h"

namespace acre::engine {

// Masks of changes, each in one of them. `total`: of the whole price instead of the price per unit.
std::vector<std::uint64_t> changes_together(const PricedJob& before, const PricedJob& after,
                                            std::span<const Change> changes, bool total);

} // namespace acre::engine
