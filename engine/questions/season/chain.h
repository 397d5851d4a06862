// Moves from ranch to ranch: what a machine that goes on to the next job saves, where somebody has
// looked up the road between the two, and what each job would then be charged.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/questions/season/season.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::size_t max_roads = 2'000;    // of a file
inline constexpr std::size_t max_road_givens = 20; // that a row sets
inline constexpr long longest_stay = 30;           // days a machine waits at a ranch for the next

using GivenSets = std::vector<std::pair<std::string, std::string>>; // NAME, VALUE

// A row of the dispatcher's file: the road from one job to another, as the givens of the job moved
// to have it.
struct Road {
    std::string from, to; // names of the jobs' files, without .job
    GivenSets way_in;
};

// "from,to,site.miles" and rows below it. C003: it is no such table.
lang::Outcome<std::vector<Road>> read_roads(std::string_view text, const std::string& name);

struct MoveMoney {
    double price = 0, cost = 0;
};
// The job with these givens set, or no price.
using Reprice = std::function<std::optional<MoveMoney>(std::size_t job, const GivenSets& sets)>;

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

// `moves`: the given that says how many moves a job pays, in and out.
MoveChain chain(const Season& season, const std::vector<Road>& roads, const std::string& moves,
                const Reprice& reprice);

} // namespace acre::engine
