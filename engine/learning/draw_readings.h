// Readings of a job over everything that its season may have wrong, worked out by the job's own
// plan in lanes.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "engine/learning/moving_parts.h"
#include "engine/learning/readings.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

// A reading as sums of lines over sums of lines.
struct Ratio {
    Reading reading;
    std::vector<Slot> over, under;
    std::vector<std::size_t> over_at{}, under_at{}; // where the lanes give them back
};

// Fills in what the readings have of draws. `work` counts steps of calculation. Q004: more of them
// than a question may take.
std::optional<lang::Diagnostic> draw_readings(const PricedJob& job,
                                              const std::vector<MovingPart>& parts,
                                              const Assumptions& assumptions,
                                              std::vector<Ratio>& ratios, double& work);

} // namespace acre::engine
