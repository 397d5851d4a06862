// What rests on what in a plan, without looking at values.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "engine/plan/plan.h"

namespace acre::engine {

// By slot: 1 where some of these inputs has a say.
std::vector<char> reached_from(const Plan& plan, std::span<const std::uint32_t> inputs);
// By slot: 1 where some of these targets may rest on it, through whatever branch.
std::vector<char> rested_on(const Plan& plan, std::span<const Slot> targets);

} // namespace acre::engine
