// The heading that takes the least time.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/field/layout.h"
#include "engine/field/plane.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

// Edges looked at, cuts of lines with them and pulls driven, in all headings together: a few
// seconds. Past it a heading has to be given.
inline constexpr std::size_t most_heading_effort = 300'000'000;

struct HeadingTime {
    double heading = 0; // degrees
    double time = 0;    // s: ripping, turning and the way between pulls
    double travel = 0;  // m
    std::size_t turns = 0;
};

// Every whole degree from 0 to 179 and the directions of the field's longest edges, fastest first;
// without those at which no pull fits. Needs speed > 0, else none. B910: a request that cannot be,
// or more work than most_heading_effort. `worked`: the field without its headland.
lang::Outcome<std::vector<HeadingTime>> rank_headings(const PlaneField& field,
                                                      const std::vector<PlanePolygon>& worked,
                                                      const LayoutRequest& request);

} // namespace acre::engine
