// Many trials of one job, and the figures made of them.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/questions/risk/risk.h"
#include "engine/questions/risk/trials.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::size_t pilot_batches = 4; // how many come before all others

// Draws and reads the trials that the question asks for. `result` gets the figures of what is
// measured, the loss, and the trials without an answer. Gives back a value near the middle of each
// measure. Q005: none of the first trials has an answer, or the work was given up.
lang::Outcome<std::vector<double>> run_trials(const PricedJob& job, const Trials& trials,
                                              const RiskQuestion& question, RiskAnswer& result);

} // namespace acre::engine
