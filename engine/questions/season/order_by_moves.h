// Jobs put after one another where a road between them saves a move: what the plan of the season
// does not weigh by itself.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "engine/questions/season/roads.h"
#include "engine/questions/season/season_plan.h"

namespace acre::engine {

// The plan, or one that keeps as much work in time and saves more on the roads, at the price of
// days. Found step by step: one job at a time is put right behind another while that saves more, so
// that a better one may exist; it stops at a limit of places tried.
SeasonPlan order_by_moves(const std::vector<SeasonJob>& jobs,
                          const std::map<std::string, Owned>& fleet, SeasonPlan plan,
                          const std::vector<PricedRoad>& roads);

} // namespace acre::engine
