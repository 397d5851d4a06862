// The readings behind `sensitivity`: one line of a job against every given.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/what_if/axis.h"
#include "engine/questions/what_if/sensitivity.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct Moved : Effect { // its `given` is not named yet
    Axis axis;
};

struct LineStudy {
    lang::LineId line = 0;
    double value = 0;
    std::vector<Moved> moved; // by what their swings do, then by elasticity
    std::vector<Interaction> interactions;
    std::size_t looked_near = 0, looked_together = 0;
    std::vector<lang::LineId> computed;
};

// How far a study goes beyond slopes. Swings take a fraction of the time of the rest.
struct StudyDepth {
    std::size_t interactions = 0; // at most so many are kept
    bool nearby = true;           // steps and kinks are looked for
    bool swings = true;           // false: the line is not read at their ends
};

// Q002: the line has no answer; Q004, Q006: it is too much work.
lang::Outcome<LineStudy> study(const PricedJob& job, lang::LineId line, const StudyDepth& depth);

} // namespace acre::engine
