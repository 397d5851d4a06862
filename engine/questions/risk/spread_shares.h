// Which given answers for how much of the spread: Sobol' indices.
//
// First order by the estimator of Saltelli and others (Computer Physics Communications 181, 2010,
// 259-270), total by Jansen's (Computer Physics Communications 117, 1999, 35-43), both from memory.
#pragma once

#include "engine/questions/risk/trials.h"

namespace acre::engine {

// Of measure `measure`. What has no answer is left out. Of more than max_shared factors those that
// matter are sought first, and the rest are told together.
SpreadShares spread_shares(const Trials& trials, std::size_t measure, double centre,
                           const RiskQuestion& question);

} // namespace acre::engine
