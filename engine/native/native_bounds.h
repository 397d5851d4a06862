// What a native function may come to when its arguments stay within bounds: enough to know that the
// ground does not lift a shank, without a search.
#pragma once

#include <cstdint>
#include <limits>
#include <span>

namespace acre::engine {

// Both ends belong to it; infinite ends bound nothing.
struct Bounds {
    double low, high;
};
inline constexpr Bounds anything{-std::numeric_limits<double>::infinity(),
                                 std::numeric_limits<double>::infinity()};

// Of the answers that there are. `function`: into native_functions().
Bounds native_bounds(std::uint32_t function, std::span<const Bounds> args);

} // namespace acre::engine
