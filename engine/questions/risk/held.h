// Which givens a risk draws, and which stay as in the job though they have a range.
#pragma once

#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/risk/risk.h"
#include "engine/questions/what_if/axis.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

class DrawnGivens {
  public:
    // What the question holds and frees, over the rule: what swings is drawn, what is chosen is
    // held. Q001: no such given; Q002: one without a range, one that is both.
    static lang::Outcome<DrawnGivens> read(const PricedJob& job, const RiskQuestion& question);

    bool draws(const Axis& axis) const;
    // Every given with a range that is not drawn, with the reason.
    std::vector<Held> held(const PricedJob& job, const std::vector<Axis>& axes) const;

  private:
    enum class Asked : char { Nothing, Hold, Free };
    std::vector<Asked> asked_; // by given
};

} // namespace acre::engine
