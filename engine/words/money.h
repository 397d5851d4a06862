// Money is rounded once, here: to cents, half up, or to the step of a firm's money.
#pragma once

#include <cstdint>

namespace acre::engine {

// Money to cents (hundredths), half away from zero. What a calculator shows as 25.025 is 2503 cents
// although the double lies a hair below: a value within a relative 1e-12 (at most a thousandth of a
// cent) below a half cent counts as that half cent. `dollars` must have cents (has_cents). `step`:
// cents come in whole multiples of it.
std::int64_t to_cents(double dollars, std::int64_t step = 1);

inline constexpr double most_dollars = 9e13;
// Whether an amount can be told in cents: it is a number, and none beyond counting.
inline bool has_cents(double dollars) {
    return dollars > -most_dollars && dollars < most_dollars;
}

} // namespace acre::engine
