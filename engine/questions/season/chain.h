// Moves from ranch to ranch: what a machine that goes on to the next job saves, where somebody has
// looked up the road between the two, and what each job would then be charged.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "engine/questions/season/roads.h"
#include "engine/questions/season/season.h"

namespace acre::engine {

struct ChainedJob {
    static constexpr std::size_t none = static_cast<std::size_t>(-1);
    std::size_t job = 0;
    std::size_t after = none;  // it comes from there, not from the yard
    std::size_t before = none; // and goes on there
    MoveMoney quoted, chained;
};
struct MoveChain {
    std::vector<ChainedJob> jobs;     // in the order of the plan
    std::vector<std::string> why_not; // roads that are there, and could not be taken
    double cost_saved = 0, charged_less = 0;
};

// Puts the jobs of the plan into an order that saves more on these roads, where one is found, and
// says what they then save.
MoveChain chain(Season& season, const std::map<std::string, Owned>& fleet,
                const std::vector<PricedRoad>& roads);

} // namespace acre::engine
