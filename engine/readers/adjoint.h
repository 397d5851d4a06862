// All slopes of one slot in one backward sweep.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "engine/plan/plan.h"
#include "engine/readers/value.h"

namespace acre::engine {

// d(target)/d(input), by index of Plan::inputs, at the values given. At a kink the slope of the
// branch taken; where a step stands (whole numbers, a staircase, a condition) that of the tread.
// NaN where the target is poison or has no slope (a root at zero); 0 for inputs the target does not
// rest on, and for choices.
std::vector<double> slopes(const Plan& plan, const Values& values, Slot target);

// The same for many points: finds once which operations lie between the inputs and the target.
class Adjoint {
  public:
    // The plan must outlive it. A sweep ends at the slots of `ends`, by slot (empty: at the inputs
    // alone): their bar is the slope by them as if they were given.
    Adjoint(const Plan& plan, Slot target, const std::vector<char>& ends = {});

    // `value`: every slot of the plan. `slope`: room for one number an input. `bar`: memory it may
    // keep between calls, one for each thread; behind the call bar[i] is the slope by slot i, of
    // the slots that lie between inputs and target.
    void run(std::span<const double> value, std::span<double> slope,
             std::vector<double>& bar) const;

    // The operations a sweep visits at most.
    std::size_t size() const { return way_.size(); }

  private:
    const Plan* plan_;
    Slot target_;
    std::vector<char> reached_; // by slot: some input that is not a choice reaches it
    std::vector<Slot> way_;     // reached by an input and asked for by the target, last first
};

} // namespace acre::engine
