#include "engine/questions/season/chain.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "engine/questions/season/order_by_moves.h"

namespace acre::engine {
namespace {

ChainedJob& chained(std::map<std::size_t, ChainedJob>& jobs, std::size_t job,
                    const MoveMoney& quoted) {
    const auto [at, added] = jobs.try_emplace(job);
    if (added) {
        at->second.job = job;
        at->second.quoted = at->second.chained = quoted;
    }
    return at->second;
}

} // namespace

MoveChain chain(Season& season, const std::map<std::string, Owned>& fleet,
                const std::vector<PricedRoad>& roads) {
    MoveChain result;
    if (!season.plan)
        return result;
    season.plan = order_by_moves(season.jobs, fleet, std::move(*season.plan), roads);
    const auto refuse = [&](const PricedRoad& road, const std::string& why) {
        result.why_not.push_back(fmt::format("\"{}\" to \"{}\": {}", season.jobs[road.from].title,
                                             season.jobs[road.to].title, why));
    };
    std::vector<JobPlace> places;
    for (const PlannedJob& job : season.plan->jobs)
        places.push_back(job.at);
    std::map<std::size_t, ChainedJob> jobs;
    std::vector<std::size_t> too_late;
    for (const std::size_t i :
         taken_roads(season.jobs, places, season.plan->units, roads, &too_late)) {
        const PricedRoad& road = roads[i];
        if (!road.why_not.empty()) {
            refuse(road, road.why_not);
            continue;
        }
        ChainedJob& from = chained(jobs, road.from, road.from_quoted);
        from.before = road.to; // its way home is not driven
        from.chained = from.chained - road.way_home;
        ChainedJob& to = chained(jobs, road.to, road.to_quoted);
        to.after = road.from;
        to.chained = to.chained - road.way_in;
    }
    for (const std::size_t i : too_late)
        refuse(roads[i],
               fmt::format("{} days lie between them, and a machine waits {} at a ranch at most",
                           places[roads[i].to].start - places[roads[i].from].finish - 1,
                           longest_stay));
    for (const auto& [job, one] : jobs)
        result.jobs.push_back(one);
    std::stable_sort(result.jobs.begin(), result.jobs.end(),
                     [&](const ChainedJob& a, const ChainedJob& b) {
                         return places[a.job].start < places[b.job].start;
                     });
    for (const ChainedJob& job : result.jobs) {
        result.cost_saved += job.quoted.cost - job.chained.cost;
        result.charged_less += job.quoted.price - job.chained.price;
    }
    return result;
}

} // namespace acre::engine
