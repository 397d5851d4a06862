#include "engine/questions/what_if/job_lanes.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/plan/not_negative.h"
#include "engine/questions/what_if/lane_checks.h"
#include "engine/questions/what_if/plan_bounds.h"
#include "engine/questions/what_if/reach.h"

namespace acre::engine {
namespace {

// But for what two ways to one figure differ by, as where the job itself is judged.
bool not_past(double low, double high) {
    return low <= high + 1e-12 * std::fmax(std::fabs(low), std::fabs(high));
}

} // namespace

JobLanes::JobLanes(const Compiled& compiled, std::span<const Axis> axes,
                   std::span<const Slot> targets, std::size_t judged,
                   std::span<const std::optional<Range>> promised)
    : judged_(judged),
      targets_(targets.size()) {
    const Plan& plan = compiled.plan;
    std::vector<std::uint32_t> inputs;
    for (const Axis& axis : axes)
        inputs.push_back(axis.input);
    const std::vector<char> varies = reached_from(plan, inputs);
    const PlanBounds bounds(plan, axes, promised);

    std::vector<Slot> wanted(targets.begin(), targets.end());
    for (const Slot require : plan.require_slot)
        if (varies[require] && !bounds.holds(require))
            wanted.push_back(require);
    requires_ = wanted.size() - targets_;
    const std::vector<Slot> signs = bounds.perhaps_negative(varies);
    wanted.insert(wanted.end(), signs.begin(), signs.end());
    signs_ = signs.size();
    for (std::size_t k = 0; k < axes.size(); ++k) {
        const Slot low = plan.within_low[axes[k].given], high = plan.within_high[axes[k].given];
        if (low == no_slot || high == no_slot)
            continue;
        const bool kept = !varies[low] && !varies[high] && k < promised.size() && promised[k] &&
                          axes[k].within && axes[k].within->low <= promised[k]->low &&
                          promised[k]->high <= axes[k].within->high;
        if (kept)
            continue;
        bounds_.push_back({k, wanted.size(), wanted.size() + 1, no_value});
        wanted.push_back(low);
        wanted.push_back(high);
        if (axes[k].is_share) { // the line is bounded, not the share
            bounds_.back().value = wanted.size();
            wanted.push_back(plan.line_slot[axes[k].line]);
        }
    }
    for (std::size_t i = 0; i < plan.given_slot.size(); ++i) {
        const Slot value = plan.given_slot[i], low = plan.within_low[i], high = plan.within_high[i];
        const auto is_axis = [&](const Axis& axis) { return axis.given == i; };
        if (value == no_slot || low == no_slot || high == no_slot ||
            !(varies[value] || varies[low] || varies[high]) ||
            std::any_of(axes.begin(), axes.end(), is_axis) ||
            (bounds.of(low).high <= bounds.of(value).low &&
             bounds.of(value).high <= bounds.of(high).low))
            continue;
        bounds_.push_back({0, wanted.size(), wanted.size() + 1, wanted.size() + 2});
        wanted.insert(wanted.end(), {low, high, value});
    }
    wanted_ = wanted.size();
    const std::vector<double> settled = bounds.settled();
    reader_.emplace(plan, inputs, wanted, std::span<const double>(), 512U, settled);
}

JobLanes::Scratch JobLanes::scratch() const {
    Scratch scratch{reader_->scratch(),
                    std::vector<double>((wanted_ - targets_) * lanes_per_run),
                    std::vector<double*>(wanted_),
                    {}};
    for (std::size_t k = targets_; k < wanted_; ++k)
        scratch.out[k] = scratch.checks.data() + (k - targets_) * lanes_per_run;
    return scratch;
}

const double* JobLanes::bounded(const Bound& bound, const double* const* in,
                                const Scratch& scratch) {
    return bound.value == no_value ? in[bound.axis] : scratch.out[bound.value];
}

std::size_t JobLanes::run(std::size_t lanes, const double* const* in, double* const* out,
                          Scratch& scratch) const {
    for (std::size_t k = 0; k < targets_; ++k)
        scratch.out[k] = out[k];
    reader_->run(lanes, in, scratch.out.data(), *scratch.reader);
    const LaneChecks& any = lane_checks();
    bool clean = true;
    const auto mark = [&](LaneFault fault, bool found, auto is_bad) {
        if (!found)
            return;
        if (clean)
            std::fill_n(scratch.fault.begin(), lanes, LaneFault::None);
        clean = false;
        for (std::size_t i = 0; i < lanes; ++i)
            if (is_bad(i))
                scratch.fault[i] = fault;
    };
    for (std::size_t k = 0; k < judged_; ++k)
        mark(LaneFault::NoAnswer, any.any_nan(out[k], lanes),
             [y = out[k]](std::size_t i) { return y[i] != y[i]; });
    for (std::size_t k = targets_ + requires_; k < targets_ + requires_ + signs_; ++k)
        mark(LaneFault::BelowZero, any.any_below(scratch.out[k], -sign_dust, lanes),
             [y = scratch.out[k]](std::size_t i) { return y[i] < -sign_dust; });
    // A refusal may say what it costs, so it counts before a line below zero.
    for (std::size_t k = targets_; k < targets_ + requires_; ++k)
        mark(LaneFault::Requirement, any.any_zero(scratch.out[k], lanes),
             [y = scratch.out[k]](std::size_t i) { return y[i] == 0; });
    for (const Bound& bound : bounds_) {
        const double* const x = bounded(bound, in, scratch);
        const double* const low = scratch.out[bound.low];
        const double* const high = scratch.out[bound.high];
        mark(LaneFault::OutsideRange, any.any_outside(x, low, high, lanes),
             [=](std::size_t i) { return !(not_past(low[i], x[i]) && not_past(x[i], high[i])); });
    }
    return clean ? 0 : silence(lanes, out, scratch);
}

std::size_t JobLanes::silence(std::size_t lanes, double* const* out, const Scratch& scratch) const {
    std::size_t faulty = 0;
    for (std::size_t i = 0; i < lanes; ++i) {
        if (scratch.fault[i] == LaneFault::None)
            continue;
        ++faulty;
        for (std::size_t k = 0; k < judged_; ++k)
            out[k][i] = std::numeric_limits<double>::quiet_NaN();
    }
    return faulty;
}

} // namespace acre::engine
