// The givens of a job that swing, parted into those that a season sets for every job and those that
// are each job's own.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/learning/assumptions.h"
#include "engine/questions/risk/shapes.h"

namespace acre::engine {

struct MovingPart {
    Axis axis;
    Shape shape;
    std::size_t assumption = no_assumption; // no_assumption: the job's own
};

// A figure is the season's where no job, entry or command line said otherwise, and where it is one
// figure: the same in every entry of a list, and not worked out from others.
std::vector<MovingPart> moving_parts(const PricedJob& job, Assumptions& assumptions);

// The name of a line as a season has it: without the entry it belongs to.
std::string season_name(const lang::Sheet& sheet, lang::LineId line);

} // namespace acre::engine
