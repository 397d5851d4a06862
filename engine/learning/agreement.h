// How well each draw of the season's figures agrees with what the logs of many jobs measured: its
// weight. Draws weighed by likelihood are draws of what is believed after the logs (importance
// resampling: Rubin 1987, J. American Statistical Association 82, 543-546; from memory).
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "engine/learning/measures.h"
#include "engine/learning/readings.h"

namespace acre::engine {

// One reading of one job with what its log measured.
struct JobTold {
    const Reading* reading = nullptr;
    const Measure* measure = nullptr;
};

// Weights by draw that add up to one; empty where no draw has an answer in every job, or where the
// jobs are too few for what they tell. All are of one kind.
//
//   Pace, Burn, FuelPrice, Hours: the logarithm of what was measured is that of the draw, plus what
//     the job has of its own, normal with a spread that is not known, plus the error of the days:
//     the normal hierarchical model, the spread integrated out (Gelman et al. 2013, Bayesian Data
//     Analysis, 3rd ed., section 5.4, with the half-Cauchy prior of Gelman 2006, Bayesian Analysis
//     1, 515-534, on the scale that the job's own swings have; from memory).
//   Money: the ratio of all money to all that the draw says, with its error from how much the jobs
//     differ (the ratio estimator, Cochran 1977, Sampling Techniques, 3rd ed., section 6.4), by
//     Student's t. Three jobs at least.
//   Days: binomial, divided by how much more than binomial the jobs differ (the dispersion of
//     McCullagh and Nelder 1989, Generalized Linear Models, 2nd ed., section 4.5; from memory).
//   Breaks: a Poisson count over machine hours.
std::vector<double> weights(Tells tells, std::span<const JobTold> jobs,
                            const Assumptions& assumptions);

// So many draws would be worth as much if they weighed alike (Kish 1965, from memory).
double effective_draws(std::span<const double> weight);
// With fewer of them than this, weights are flattened until there are so many: the interval comes
// out wider, never narrower.
inline constexpr double least_effective = 100;

} // namespace acre::engine
