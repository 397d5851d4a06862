// Whether a check fails in any of many lanes: most checks of most batches find nothing, and that is
// seen in vectors of the machine's width.
#pragma once

#include <cstddef>

namespace acre::engine {

struct LaneChecks {
    bool (*any_nan)(const double* y, std::size_t n);
    bool (*any_zero)(const double* y, std::size_t n);
    bool (*any_below)(const double* y, double limit, std::size_t n);
    // Unless low <= y <= high; NaN is outside.
    bool (*any_outside)(const double* y, const double* low, const double* high, std::size_t n);
};

const LaneChecks& lane_checks(); // the widest this machine has

} // namespace acre::engine
