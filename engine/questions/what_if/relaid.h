// A job that names boundaries was laid out with its own values. Questions that move a given read
// one plan and lay nothing out anew: whatever moves the layout would be answered as if the pulls
// stayed where they are.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/what_if/axis.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

class LaidOut {
  public:
    explicit LaidOut(const PricedJob& job);

    // Whether a boundary is laid out otherwise where the given has one of these values.
    bool otherwise(const Axis& axis, std::span<const double> at);
    // The same over its swing, its options, or, of a given with neither, a little beside its value.
    bool otherwise(const Axis& axis);

  private:
    const PricedJob& job_;
    std::vector<Slot> slots_;  // of the lines that a layout reads; none: no boundary is named
    std::vector<char> rested_; // by slot: a layout may rest on it
    std::size_t looked_ = 0;   // how often the plan was read
};

// Q002: why the given cannot be varied here.
lang::Diagnostic laid_out_by(const PricedJob& job, const Axis& axis);
// Whether the layout set it, with others that go with it: acres, pulls and their length.
bool is_from_layout(const PricedJob& job, const Axis& axis);

} // namespace acre::engine
