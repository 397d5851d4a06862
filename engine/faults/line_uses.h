// What a formula names, through the branches that its job takes.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/plan/compile_plan.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"

namespace acre::engine {

struct Uses {
    std::vector<lang::LineId> lines;      // each once, in the order written
    std::vector<std::uint32_t> functions; // those it calls and those they call, each once
};

// Of a formula outside functions; what a branch not taken names is left out.
Uses uses_of(const PricedJob& job, lang::NodeId formula);

// One byte a line: those that `lines` and `formulas` rest on, themselves included, with the bounds
// of the givens among them.
std::vector<char> asked_lines(const PricedJob& job, std::span<const lang::LineId> lines,
                              std::span<const lang::NodeId> formulas);

} // namespace acre::engine
