// Where a break-even looks, and what it says when there is nothing to find.
#pragma once

#include <optional>

#include "engine/job/priced_job.h"
#include "engine/questions/what_if/axis.h"
#include "engine/questions/what_if/range.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

// Q002: the given is a choice.
lang::Outcome<Axis> number_axis(const PricedJob& job, const std::string& given);

// `between`; else the allowed range, else the swing. Q003: there is none, it is empty, or it leaves
// the allowed range.
lang::Outcome<Range> range_of(const PricedJob& job, const Axis& axis,
                              const std::optional<Range>& between);

} // namespace acre::engine
