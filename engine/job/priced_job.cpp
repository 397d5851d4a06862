#include "engine/job/priced_job.h"

#include <limits>

#include "engine/plan/plan_roots.h"

namespace acre::engine {

double PricedJob::value(lang::LineId line) const {
    const Slot slot = line == lang::none ? no_slot : slot_of(compiled(), line);
    return slot == no_slot ? std::numeric_limits<double>::quiet_NaN() : values_.slot[slot];
}

} // namespace acre::engine
