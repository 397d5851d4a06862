// Many variants of one job at once: the lane reader, and the judgement of every lane. A variant
// without an answer (poison, a requirement not met, a given outside its allowed range, a line below
// zero that has no sense there) is marked and never mixed into a result.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "engine/plan/compile_plan.h"
#include "engine/questions/what_if/axis.h"
#include "engine/readers/lanes.h"

namespace acre::engine {

enum class LaneFault : std::uint8_t { None, NoAnswer, Requirement, OutsideRange, BelowZero };

class JobLanes {
  public:
    // axes: what varies. targets: what is asked for. promised: by axis, a range its values never
    // leave, so that a allowed range that does not vary itself need not be checked lane by lane;
    // may be empty. Only the first `judged` targets make a fault by being poison; the rest are
    // looked at, no more.
    JobLanes(const Compiled& compiled, std::span<const Axis> axes, std::span<const Slot> targets,
             std::size_t judged, std::span<const std::optional<Range>> promised = {});

    struct Scratch {
        LaneReader::ScratchPtr reader;
        std::vector<double> checks; // what requirements, signs and ranges need, by check and lane
        std::vector<double*> out;
        std::array<LaneFault, lanes_per_run> fault{};
    };
    Scratch scratch() const;

    // As LaneReader::run. Gives back how many lanes have no answer; their judged targets are NaN,
    // and scratch.fault says why (it is written only when there are any).
    std::size_t run(std::size_t lanes, const double* const* in, double* const* out,
                    Scratch& scratch) const;

    LaneReader::Size size() const { return reader_->size(); }

  private:
    static constexpr std::size_t no_value = static_cast<std::size_t>(-1);
    struct Bound { // checks[low] <= x <= checks[high]; x: axis `axis`, or checks[value]
        std::size_t axis, low, high, value;
    };
    static const double* bounded(const Bound& bound, const double* const* in,
                                 const Scratch& scratch);
    // Makes NaN of the judged targets of faulty lanes, and says how many there are.
    std::size_t silence(std::size_t lanes, double* const* out, const Scratch& scratch) const;

    // The wanted slots: targets, then requirements, then signs, then bounds.
    std::size_t judged_ = 0, targets_ = 0, requires_ = 0, signs_ = 0, wanted_ = 0;
    std::vector<Bound> bounds_;
    std::optional<LaneReader> reader_;
};

} // namespace acre::engine
