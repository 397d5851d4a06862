// The compiled plan of a job, operation by operation: for those who look for a fault in it.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/job/priced_job.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct PlanStep {                        // of slot i, by its place in the list
    std::string_view operation;          // as opcodes.def names it: "Multiply"
    std::vector<std::uint32_t> operands; // slots
    std::string of;                      // the table, the native function, or the given it reads
    double value = 0;                    // NaN: poison
    std::string unit;                    // "$/h", or "choice"; empty for a condition, and inside a
                                         // conversion or a function
    std::string line;                    // that first asked for it; empty: a condition or a bound
    std::string place;                   // of the formula that did: "models/deep-rip.rate:14"
};

struct PlanListing {
    std::vector<PlanStep> steps;
};

struct PlanQuestion {};

lang::Outcome<PlanListing> ask(const PricedJob& job, const PlanQuestion& question);

} // namespace acre::engine
