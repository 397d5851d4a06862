// What the slots of a plan are, which the plan itself need not know: numbers or options of a
// choice; sure of an answer or not; resting on a value that a sheet can only hold.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/plan/plan.h"

namespace acre::engine {

// By slot: the choice it is one of; lang::none for a number, a truth, or a constant, which is
// whatever stands beside it. A plan shares what is worked out alike, so a number may be marked too:
// whoever reads a slot says what it is to be.
std::vector<std::uint32_t> choices_of_slots(const PricedJob& job);

// By slot, 1: it may have no answer, or rest on what has none, whatever is typed into the givens.
// Overflow is not counted.
std::vector<char> slots_that_may_fail(const Plan& plan);

// By slot, 1: it rests on one of `held`, on any branch.
std::vector<char> slots_resting_on(const Plan& plan, const std::vector<Slot>& held);

// By slot, 1: `wanted`, or one of those rests on it, on any branch.
std::vector<char> slots_asked_by(const Plan& plan, std::vector<char> wanted);

} // namespace acre::engine
