// How much an answer may cost. A model of a stranger may be as large as the limits allow, and a
// question may read it millions of times: so work is counted in steps of calculation, each weighed
// by what it takes beside an addition, and questions are refused, or answered from fewer readings,
// when it comes to more than the budget.
#pragma once

#include <cstddef>
#include <cstdint>

namespace acre::engine {

// Of one question: some ten seconds of one core.
inline constexpr std::uint64_t max_effort = 20'000'000'000;
// Givens that a question moves together: swings, and choices where they are tried.
inline constexpr std::size_t max_moved = 1'500;

// Beside an addition, in a batch of lanes.
inline constexpr std::uint64_t effort_of_function = 40; // exp, log, powers, sines
inline constexpr std::uint64_t effort_of_table = 16;
inline constexpr std::uint64_t effort_of_native = 4'000; // a search
inline constexpr std::uint64_t effort_of_plan =
    256; // of making a reader, for each operation of the plan
inline constexpr std::size_t bytes_near =
    512U << 10U; // what a reader holds beyond it is far from the processor:
inline constexpr std::uint64_t effort_when_far = 4; // every step costs so much

} // namespace acre::engine
