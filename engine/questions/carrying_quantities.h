// The quantities that carry a price: what an estimator checks before he believes the money.
#pragma once

#include <vector>

#include "engine/job/priced_job.h"
#include "engine/plan/compile_plan.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"

namespace acre::engine {

// What costs and price items are over (acres, machine hours, moves), the labelled lines these rest
// on directly through the branches taken (travel, speed, the method chosen), and the labelled
// quantities that the job's own model works out for the whole job (acres an hour, gallons an acre,
// days). No money; each once, in the order written.
std::vector<lang::LineId> carrying_quantities(const PricedJob& job);

} // namespace acre::engine
