// Pace by class of ground and depth: what jobs made against what the season works out for them.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "engine/learning/readings.h"

namespace acre::engine {

struct PaceOfJob {
    Ground ground;
    double ratio = 1; // pace measured over pace worked out
    double error = 0; // of its logarithm, from how much the days differ
};

struct GroundPace {
    std::string layer;       // "moderate_pan"
    double from = 0, to = 0; // depth, above `from` up to `to`
    std::string depth_unit;
    std::size_t jobs = 0;
    double ratio = 1;                      // as these jobs alone have it: their geometric mean
    double learned = 1, low = 1, high = 1; // drawn toward all jobs, and its interval of 90 %
};

// Normal within normal: a job around its ground, a ground around all. Both spreads are unknown and
// integrated out over a grid (Gelman et al. 2013, Bayesian Data Analysis, 3rd ed., section 5.4;
// from memory), each with a half-Cauchy prior on `scale`. `between_jobs`: their spread on one
// ground.
std::vector<GroundPace> ground_paces(std::span<const PaceOfJob> jobs, double scale,
                                     double& between_jobs);

} // namespace acre::engine
