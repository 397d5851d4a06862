// What a refusal does to a trial: a requirement that is not met stops the work. Where the model
// says what that costs, the firm is out so much and the job's own price and cost do not count.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "engine/questions/risk/risk.h"
#include "engine/questions/what_if/job_lanes.h"
#include "engine/questions/what_if/plan_bounds.h"

namespace acre::engine {

// How often one requirement stopped a trial, and what that came to.
struct RefusalTally {
    std::uint64_t count = 0;
    double money = 0; // summed up
};

class Refusals {
  public:
    // Adds to `targets` what must be read of every requirement that moves with the axes and may
    // fail; names them in `result`.
    void read(const PricedJob& job, const std::vector<Axis>& axes, const PlanBounds& bounds,
              std::vector<Slot>& targets, RiskAnswer& result);

    // Of lanes that a requirement stopped: the contribution is minus the largest cost of what
    // failed. One that failed and says no cost leaves the trial without one. `out`: by target.
    // Gives back how many lanes have one now.
    std::size_t settle(std::size_t lanes, const LaneFault* fault, const double* const* out,
                       double* contribution) const;
    // Counts them, by refusal.
    void count(std::size_t lanes, const LaneFault* fault, const double* const* out,
               std::vector<RefusalTally>& tally) const;
    // The chances and mean costs of what stopped any trial; drops the rest of `result`.
    void report(const std::vector<RefusalTally>& tally, RiskAnswer& result) const;

    std::size_t size() const { return list_.size(); }

  private:
    struct Refusal {
        std::size_t met, money; // targets; money: no_money where the model says no cost
    };
    static constexpr std::size_t no_money = static_cast<std::size_t>(-1);
    std::vector<Refusal> list_;
};

} // namespace acre::engine
