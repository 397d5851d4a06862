// Which lines must be looked at in every variant of a job, because they could come below zero.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "engine/plan/plan.h"
#include "engine/questions/what_if/axis.h"

namespace acre::engine {

// Slots of lines that have no sense below zero and that one pass of bounds over the plan cannot
// prove to stay above it, when `axes` vary within their allowed ranges and the `promised` ones (by
// axis; may be empty). `varies`: by slot. In order, each once.
std::vector<Slot> perhaps_negative(const Plan& plan, std::span<const char> varies,
                                   std::span<const Axis> axes,
                                   std::span<const std::optional<Range>> promised);

} // namespace acre::engine
