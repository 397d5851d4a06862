// Jobs that may be one piece of work told twice: several ways to do it, or a part of it by itself.
// Only a person knows.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/questions/season/season_job.h"

namespace acre::engine {

inline constexpr std::size_t max_doubles = 1'000; // that are named

struct Double {                                          // one customer, and
    std::size_t first = 0, second = 0;                   // into the jobs
    bool boundary = false, acres = false, dates = false; // which of them is the same
};

struct Doubles {
    std::vector<Double> listed;
    bool all = true; // that there are
};

Doubles find_doubles(const std::vector<SeasonJob>& jobs);

} // namespace acre::engine
