// One line of a job as a curve over one given, or such a line less others: many points at
// once, the places where it jumps or bends, its slope.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "engine/plan/compile_plan.h"
#include "engine/questions/what_if/axis.h"
#include "engine/questions/what_if/job_lanes.h"
#include "engine/questions/what_if/switches.h"
#include "engine/readers/value.h"

namespace acre::engine {

struct CurvePoint {
    double x = 0, y = 0;
    std::uint64_t state = 0; // of all decisions; the same state, the same smooth piece
};

class Curve {
  public:
    Curve(const Compiled& compiled, const Axis& axis, Slot target);
    // This less so many times `other`, which must be over the same given; it must outlive this.
    void subtract(const Curve& other, double times = 1) { others_.push_back({&other, times}); }

    // y at every x; NaN where the job has no answer.
    void read(std::span<const double> x, std::span<CurvePoint> points) const;
    CurvePoint at(double x) const;
    double slope(double x) const;

    // On the way from one point to another of unlike state, up or down: the two points, as near to
    // each other as doubles will go, where the state is first another. What decides there is an
    // operation of the plan (no_slot where only the other curve decides, or where answers begin or
    // end for another reason).
    struct Change {
        CurvePoint before, after;
        Slot decided = no_slot;
    };
    Change first_change(const CurvePoint& from, const CurvePoint& to) const;

    // What reading it has cost so far, in steps of calculation (engine/plan/effort.h).
    std::uint64_t effort() const;
    std::uint64_t effort_of_point() const; // of one more point among many

  private:
    Slot decided_between(double a, double b) const;

    const Compiled* compiled_;
    Axis axis_;
    Slot target_;
    Switches switches_;
    std::optional<JobLanes> lanes_;
    struct Other {
        const Curve* curve;
        double times;
    };
    std::vector<Other> others_;
    mutable std::uint64_t effort_ = 0;
};

} // namespace acre::engine
