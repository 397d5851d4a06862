// The dispatcher's roads from job to job, and what going on over each saves.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/questions/season/fleet.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::size_t max_roads = 2'000;    // of a file
inline constexpr std::size_t max_road_givens = 20; // that a row sets
inline constexpr long longest_stay = 30;           // days a machine waits at a ranch for the next

using GivenSets = std::vector<std::pair<std::string, std::string>>; // NAME, VALUE

// A row of the dispatcher's file: the road from one job to another, as the givens of the job moved
// to have it.
struct Road {
    std::string from, to; // names of the jobs' files, without .job, or numbers of quotes
    GivenSets way_in;     // `with`: a file of values with the legs of the road
};

// "from,to,site.miles,with" and rows below it. C003: it is no such table.
lang::Outcome<std::vector<Road>> read_roads(std::string_view text, const std::string& name);

struct MoveMoney {
    double price = 0, cost = 0;
    MoveMoney operator-(const MoveMoney& less) const {
        return {price - less.price, cost - less.cost};
    }
};
// The job with these givens set, or no price.
using Reprice = std::function<std::optional<MoveMoney>(std::size_t job, const GivenSets& sets)>;

// A road between two jobs of the season, whatever the plan.
struct PricedRoad {
    std::size_t from = 0, to = 0;     // jobs
    MoveMoney from_quoted, to_quoted; // with two moves each
    MoveMoney way_home;               // that `from` does not pay
    MoveMoney way_in;                 // that `to` pays less
    std::string why_not;              // it cannot be taken; empty: it can

    double saved() const { return way_home.cost + way_in.cost; } // direct cost
};

// The roads whose two jobs are there. `moves`: the given that says how many moves a job pays, in
// and out. C003: none of the jobs pays two by it.
lang::Outcome<std::vector<PricedRoad>> price_roads(const std::vector<SeasonJob>& jobs,
                                                   const std::vector<Road>& roads,
                                                   const std::string& moves,
                                                   const Reprice& reprice);

// Which of these are taken where the jobs stand at these places, each job left and come to once.
// By index into `roads`. `too_late`: those of jobs that follow each other after more than the
// longest stay.
std::vector<std::size_t> taken_roads(const std::vector<SeasonJob>& jobs,
                                     const std::vector<JobPlace>& places, const UnitsOfJobs& units,
                                     const std::vector<PricedRoad>& roads,
                                     std::vector<std::size_t>* too_late = nullptr);

} // namespace acre::engine
