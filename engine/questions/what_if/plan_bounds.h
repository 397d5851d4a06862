// What every slot of a plan may come to when some inputs vary: which lines and requirements must be
// looked at in every variant of a job, and which hold in all of them.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "engine/native/native_bounds.h"
#include "engine/plan/plan.h"
#include "engine/questions/what_if/axis.h"

namespace acre::engine {

// One pass over the plan, from constants, inputs and allowed ranges. Every bound is worked out as
// the value is, rounded alike, so no value that has an answer is past it.
class PlanBounds {
  public:
    // `axes` vary within their allowed ranges and the `promised` ones (by axis; may be empty). The
    // plan must outlive this.
    PlanBounds(const Plan& plan, std::span<const Axis> axes,
               std::span<const std::optional<Range>> promised);

    Bounds of(Slot slot) const { return bounds_[slot]; }
    // Of a truth: true wherever it has an answer.
    bool holds(Slot slot) const { return bounds_[slot].low > 0; }
    // By slot: what a truth comes to in every variant, where it has an answer in all of them; else
    // NaN.
    std::vector<double> settled() const;
    // Slots of lines that have no sense below zero and are not proved to stay above it. `varies`:
    // by slot. In order, each once.
    std::vector<Slot> perhaps_negative(std::span<const char> varies) const;

  private:
    const Plan& plan_;
    std::vector<Bounds> bounds_;
    std::vector<Bounds> inputs_;
    std::vector<char> answered_; // by slot: 1 where no variant is without an answer

    bool is_answered(Slot slot) const;
    Bounds of_axis(const Axis& axis, const std::optional<Range>& promised) const;
    Bounds of_operation(const Operation& operation) const;
    Bounds of_call(const NativeCall& call) const;
    Bounds of_arithmetic(const Operation& operation) const;
    Bounds of_branch(const Operation& operation) const;
};

} // namespace acre::engine
