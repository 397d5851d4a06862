// Where jobs want more of a machine than the firm owns, by the dates as given.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "engine/questions/season/fleet.h"

namespace acre::engine {

inline constexpr std::size_t max_clashes = 10'000; // that are listed

// Two jobs that are on a machine on the same days, on which more of it is wanted than is owned. Of
// a job that wants more than is owned all by itself `second` is none.
struct Clash {
    static constexpr std::size_t none = static_cast<std::size_t>(-1);
    std::string machine;
    std::size_t first = 0, second = none; // into the jobs
    long from = 0, to = 0;                // first and last day of it
    int wanted = 0, owned = 0;            // the most at once on these days
    bool may_be = false;                  // one of the jobs is an offer
};

struct Clashes {
    std::vector<Clash> listed; // by first day, then machine
    bool all = true;           // that there are
};

Clashes find_clashes(const std::vector<SeasonJob>& jobs, const std::vector<JobPlace>& places,
                     const std::map<std::string, Owned>& fleet);

} // namespace acre::engine
