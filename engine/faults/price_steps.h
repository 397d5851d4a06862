// Price steps that do more, or less, than anyone means: shares beyond what is usual, steps below
// zero, twice, or in an odd order, roundings and minimums of another size than what they round.
#pragma once

#include <span>

#include "engine/job/priced_job.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

// Shares past these are warned of. Common practice, no source: overhead of 5 to 30 % and profit of
// 5 to 25 % are what contractors tell each other.
inline constexpr double usual_overhead = 0.6;   // overhead, reserve: of the cost
inline constexpr double usual_markup = 1;       // of the sum so far
inline constexpr double usual_margin = 0.6;     // of the price
inline constexpr double smallest_usual = 0.005; // 0.15 % is somebody's 15 %
// A rounding step larger than this share of what it rounds is no rounding.
inline constexpr double usual_rounding = 0.25;
// A minimum per unit that makes the price more than so many times as large was meant for the whole.
inline constexpr double usual_minimum = 2;
// A whole price with a price per unit, rounded to steps no larger: the unit was left out. In $.
inline constexpr double smallest_whole_step = 1;

// L815 to L819, for the prices among `asked` (one byte a line). What needs a value is left out
// where there is none.
void report_price_steps(const PricedJob& job, std::span<const char> asked,
                        lang::Diagnostics& diagnostics);
// The same for all prices.
void report_price_steps(const PricedJob& job, lang::Diagnostics& diagnostics);

} // namespace acre::engine
