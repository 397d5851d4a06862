#include "engine/questions/what_if/curve.h"

#include "engine/plan/effort.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/readers/adjoint.h"

namespace acre::engine {
namespace {

constexpr std::size_t most_in_memory = std::size_t{1} << 21; // figures of decisions

std::vector<Slot> targets_of(Slot target, const Switches& switches) {
    std::vector<Slot> targets{target};
    targets.insert(targets.end(), switches.slots().begin(), switches.slots().end());
    return targets;
}

} // namespace

Curve::Curve(const Compiled& compiled, const Axis& axis, Slot target)
    : compiled_(&compiled),
      axis_(axis),
      target_(target),
      switches_(compiled.plan, target, std::span(&axis_.input, 1)) {
    lanes_.emplace(compiled, std::span(&axis_, 1), targets_of(target, switches_), 1);
    effort_ = effort_of_plan * compiled.plan.size();
}

void Curve::read(std::span<const double> x, std::span<CurvePoint> points) const {
    JobLanes::Scratch scratch = lanes_->scratch();
    const std::size_t columns = 1 + switches_.slots().size();
    // Of a line with very many decisions fewer points at a time.
    const std::size_t at_once =
        std::clamp<std::size_t>(most_in_memory / columns, 16, lanes_per_run);
    std::vector<double> memory(columns * at_once);
    std::vector<double*> out(columns);
    std::vector<std::uint64_t> states(at_once);
    for (std::size_t k = 0; k < columns; ++k)
        out[k] = memory.data() + k * at_once;
    const LaneReader::Size size = lanes_->size();
    effort_ += size.scratch_bytes / sizeof(double) + memory.size();
    for (std::size_t from = 0; from < x.size(); from += at_once) {
        const std::size_t lanes = std::min(at_once, x.size() - from);
        effort_ += size.of_a_run(lanes) + 16 * columns * lanes;
        const double* in = x.data() + from;
        lanes_->run(lanes, &in, out.data(), scratch);
        switches_.states([&](std::size_t k) { return out[1 + k]; },
                         std::span(states.data(), lanes));
        for (std::size_t i = 0; i < lanes; ++i) {
            // Where there is no answer there is one state, whatever the decisions were.
            const double y = out[0][i];
            points[from + i] = {x[from + i], y, y != y ? 0 : states[i]};
        }
    }
    std::vector<CurvePoint> theirs(others_.empty() ? 0 : x.size());
    for (const Other& other : others_) {
        other.curve->read(x, theirs);
        for (std::size_t i = 0; i < x.size(); ++i) {
            points[i].y -= other.times * theirs[i].y;
            points[i].state = points[i].y != points[i].y
                                  ? 0
                                  : points[i].state * 0x9E3779B97F4A7C15 + theirs[i].state;
        }
    }
}

std::uint64_t Curve::effort() const {
    std::uint64_t effort = effort_;
    for (const Other& other : others_)
        effort += other.curve->effort();
    return effort;
}

std::uint64_t Curve::effort_of_point() const {
    std::uint64_t effort = lanes_->size().effort;
    for (const Other& other : others_)
        effort += other.curve->effort_of_point();
    return effort;
}

CurvePoint Curve::at(double x) const {
    CurvePoint point;
    read(std::span(&x, 1), std::span(&point, 1));
    return point;
}

double Curve::slope(double x) const {
    effort_ += 8 * compiled_->plan.size();
    std::vector<double> inputs;
    for (const Input& input : compiled_->plan.inputs)
        inputs.push_back(input.value);
    inputs[axis_.input] = x;
    double slope = slopes(compiled_->plan, evaluate(compiled_->plan, inputs), target_)[axis_.input];
    for (const Other& other : others_)
        slope -= other.times * other.curve->slope(x);
    return slope;
}

Curve::Change Curve::first_change(const CurvePoint& from, const CurvePoint& to) const {
    CurvePoint low = from, high = to;
    constexpr std::size_t parts = 64;
    std::array<double, parts> x{};
    std::array<CurvePoint, parts> points{};
    // Each round leaves one part of 64; twelve reach the last bit of any range.
    for (int round = 0; round < 12 && std::nextafter(low.x, high.x) != high.x; ++round) {
        for (std::size_t k = 0; k < parts; ++k)
            x[k] = low.x + (high.x - low.x) * static_cast<double>(k + 1) / parts;
        x[parts - 1] = high.x;
        read(x, points);
        const auto other = std::find_if(points.begin(), points.end(),
                                        [&](const CurvePoint& p) { return p.state != low.state; });
        if (other == points.end())
            break; // x[parts - 1] is `high` itself, so this cannot be
        if (other != points.begin())
            low = *(other - 1);
        high = *other;
    }
    return {low, high, decided_between(low.x, high.x)};
}

Slot Curve::decided_between(double a, double b) const {
    effort_ += 8 * compiled_->plan.size();
    const auto values_at = [&](double x) {
        std::vector<double> inputs;
        for (const Input& input : compiled_->plan.inputs)
            inputs.push_back(input.value);
        inputs[axis_.input] = x;
        return evaluate(compiled_->plan, inputs).slot;
    };
    const std::vector<double> one = values_at(a), two = values_at(b);
    const auto& slots = switches_.slots();
    return switches_.first_difference([&](std::size_t k) { return one[slots[k]]; },
                                      [&](std::size_t k) { return two[slots[k]]; });
}

} // namespace acre::engine
