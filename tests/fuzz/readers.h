// The readers of a plan against each other.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "engine/plan/plan.h"
#include "tests/support/dice.h"

namespace acre::fuzz {

// Lanes of thrown inputs through the lane reader, at every width of this machine, to the last bit
// of the value reader.
void hold_lanes(const engine::Plan& plan, tests::Dice& dice);

// Slopes of the targets against central differences, wherever those have settled: by every input,
// or by one.
void hold_slopes(const engine::Plan& plan, const std::vector<engine::Slot>& targets,
                 std::optional<std::size_t> one = {});

} // namespace acre::fuzz
