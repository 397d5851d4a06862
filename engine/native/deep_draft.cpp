#include "engine/native/deep_draft.h"

#include <cmath>
#include <limits>

#include "engine/native/shank_physics.h"

namespace acre::engine {

namespace {

using shank::Above;
using shank::Layer;
using shank::Tool;

constexpr int grid_steps = 400;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();
using Args = std::span<const double, draft_args>;
using Slopes = Dual<draft_args>;

template <class T> struct Ground {
    T depth;
    Tool<T> tool;
    std::array<Layer<T>, draft_layers> layers;
};

template <class T>
Layer<T> layer(const T& thickness, const T& weight, const T& cohesion, const T& adhesion,
               const T& friction, const T& steel) {
    using std::tan;
    const T phi = shank::most(friction, T(shank::least_friction));
    return {thickness,
            weight,
            cohesion,
            adhesion,
            tan(phi * shank::radians),
            tan(steel * shank::radians),
            shank::slot(phi)};
}

// `at(i)`: argument i.
template <class T, class At> Ground<T> ground(At at) {
    Ground<T> g{at(0), shank::tool(at(1), at(2)), {}};
    for (std::size_t j = 0; j < draft_layers; ++j) {
        const std::size_t i = 3 + 6 * j;
        if (j + 1 < draft_layers) {
            g.layers[j] = layer(at(i), at(i + 1), at(i + 2), at(i + 3), at(i + 4), at(i + 5));
        } else {
            g.layers[j] = layer(T(std::numeric_limits<double>::infinity()), at(i), at(i + 1),
                                at(i + 2), at(i + 3), at(i + 4));
        }
    }
    return g;
}

// No angle that turns the wedge over, nothing negative that cannot be.
bool has_answer(Args a) {
    for (const double x : a)
        if (!std::isfinite(x))
            return false;
    if (a[0] < 0 || !(a[1] > 0) || !(a[2] > 0) || a[2] > 90)
        return false;
    for (std::size_t j = 0; j < draft_layers; ++j) {
        const bool last = j + 1 == draft_layers;
        const double* l = &a[3 + 6 * j + (last ? 0 : 1)];
        if (!last && l[-1] < 0)
            return false;
        if (l[0] < 0 || l[1] < 0 || l[2] < 0)
            return false;
        if (l[3] < 0 || l[3] >= 90 || l[4] < 0 || a[2] + l[4] >= 180)
            return false;
    }
    return true;
}

// One layer that reaches above the depth, with all that the search needs to know of its
// surroundings.
struct Segment {
    Layer<double> layer;
    Above<double> above;
    double bottom = 0;
    double slot_below = 0; // slot draft of all layers beneath, down to the depth
};
struct Segments {
    std::array<Segment, draft_layers> at;
    std::size_t count = 0;
};

bool alike(const Layer<double>& a, const Layer<double>& b) {
    return a.weight == b.weight && a.cohesion == b.cohesion && a.adhesion == b.adhesion &&
           a.tan_friction == b.tan_friction && a.tan_steel == b.tan_steel;
}

// Layers of no thickness are left out and neighbours of the same ground made one, so a layer that
// is written as two changes nothing, not even the candidates of the search.
Segments segments(const Ground<double>& g) {
    Segments s;
    Above<double> above;
    for (const Layer<double>& l : g.layers) {
        if (above.top >= g.depth)
            break;
        const double bottom = std::min(above.top + l.thickness, g.depth);
        if (bottom <= above.top)
            continue;
        if (s.count > 0 && alike(s.at[s.count - 1].layer, l)) {
            Segment& last = s.at[s.count - 1];
            last.bottom = bottom;
            above = shank::below(last.above, last.layer, bottom - last.above.top);
        } else {
            s.at[s.count++] = {l, above, bottom, 0};
            above = shank::below(above, l, bottom - above.top);
        }
        above.top = bottom;
    }
    double slot = 0;
    for (std::size_t j = s.count; j-- > 0;) {
        Segment& e = s.at[j];
        e.slot_below = slot;
        slot += shank::slot_draft(g.tool, e.layer, e.above.overburden, e.above.top, e.bottom);
    }
    return s;
}

double slot_from(const Tool<double>& tool, const Segment& e, double x) {
    return shank::slot_draft(tool, e.layer, e.above.overburden + e.layer.weight * (x - e.above.top),
                             x, e.bottom) +
           e.slot_below;
}

// Inlined always: a call in the loop over the grid would keep it from becoming vector code.
[[gnu::always_inline]] inline double draft_from(const Tool<double>& tool, const Segment& e,
                                                double x) {
    const auto n = shank::wedge_down_to(tool, e.above, e.layer, x);
    return shank::crescent(tool, e.above, e.layer, x, n).forward + slot_from(tool, e, x);
}

// The draft at grid points `from` to `to` of a segment. In the top layer the mean friction is the
// layer's own, so one wedge serves all points.
void fill(std::array<double, grid_steps + 1>& draft, const Ground<double>& g, const Segment& of,
          int from, int to) {
    const Segment e =
        of; // copies, so that the compiler knows that writing a draft changes nothing here
    const Tool<double> tool = g.tool;
    const double depth = g.depth;
    if (e.above.top > 0) {
        for (int n = from; n < to; ++n)
            draft[static_cast<std::size_t>(n)] =
                draft_from(tool, e, depth * (n / double{grid_steps}));
        return;
    }
    const auto wedge = shank::wedge(tool, e.layer.tan_friction, e.layer.tan_steel);
    for (int n = from; n < to; ++n) {
        const double x = depth * (n / double{grid_steps});
        draft[static_cast<std::size_t>(n)] =
            shank::crescent(tool, e.above, e.layer, x, wedge).forward + slot_from(tool, e, x);
    }
}

// Where the draft is least.
struct Least {
    double draft = nan;
    double critical_depth = nan;
    int grid = -1; // depth × grid / 400; -1: the bottom of a layer
};

// The full search: no point of the grid is skipped, so the answer is that of the definition. What
// makes it quick: sums over layers above and below are made once a layer, the failure angle has a
// closed form in the tangents of the angles, and the points of one layer run in a loop without a
// branch or a call, which the compiler turns into vector code.
Least search(const Ground<double>& g, const Segments& s) {
    std::array<double, grid_steps + 1> draft;
    draft[0] = slot_from(g.tool, s.at[0], 0);
    int i = 1;
    Least best{draft[0], 0, 0};
    double sum = draft[0]; // not a number as soon as one of them is not
    for (std::size_t j = 0; j < s.count; ++j) {
        const Segment& e = s.at[j];
        const bool last = j + 1 == s.count;
        int end = last ? grid_steps + 1 : static_cast<int>(e.bottom / g.depth * grid_steps);
        while (!last && end <= grid_steps && g.depth * (end / double{grid_steps}) <= e.bottom)
            ++end;
        fill(draft, g, e, i, end);
        for (int n = i; n < end; ++n) {
            const double d = draft[static_cast<std::size_t>(n)];
            sum += d;
            if (d < best.draft)
                best = {d, g.depth * (n / double{grid_steps}), n};
        }
        i = std::max(i, end);
        if (last)
            break;
        const double d = draft_from(g.tool, e, e.bottom);
        sum += d;
        if (d < best.draft)
            best = {d, e.bottom, -1};
    }
    return std::isfinite(sum) ? best : Least{};
}

// The parts of the draft at a critical depth, with slopes if T carries them. `x_of`: the critical
// depth from the bottom of the layer that holds it.
template <class T> struct Parts { T crescent, slot, critical_depth, down_force; };
template <class T> Parts<T> parts(const Ground<T>& g, double x_value, const T* x_given) {
    Parts<T> r{T(0.0), T(0.0), T(0.0), T(0.0)};
    Above<T> above;
    bool in_slot = false;
    for (const Layer<T>& l : g.layers) {
        if (value_of(above.top) >= value_of(g.depth))
            break;
        const bool ends = value_of(above.top) + value_of(l.thickness) < value_of(g.depth);
        const T bottom = ends ? above.top + l.thickness : g.depth;
        if (in_slot) {
            r.slot = r.slot + shank::slot_draft(g.tool, l, above.overburden, above.top, bottom);
        } else if (x_value <= value_of(bottom)) {
            const T x = x_given ? *x_given : bottom;
            r.critical_depth = x;
            if (x_value > 0) {
                const auto c =
                    shank::crescent(g.tool, above, l, x, shank::wedge_down_to(g.tool, above, l, x));
                r.crescent = c.forward;
                r.down_force = c.down;
            }
            r.slot = shank::slot_draft(g.tool, l, above.overburden + l.weight * (x - above.top), x,
                                       bottom);
            in_slot = true;
        }
        above = shank::below(above, l, bottom - above.top);
    }
    return r;
}

Least search(Args a) {
    const auto g = ground<double>([&](std::size_t i) { return a[i]; });
    return search(g, segments(g));
}

using Part = Slopes Parts<Slopes>::*;

// Value and slopes of the draft or a part of it, at the critical depth that the search finds. A
// critical depth on the grid moves with the depth, one at the bottom of a layer with the thickness
// of the layers above it.
double slopes(std::span<const double> args, std::span<double> out, Part first, Part second) {
    const Args a = args.first<draft_args>();
    std::fill(out.begin(), out.end(), nan);
    if (!has_answer(a))
        return nan;
    const Least least = a[0] > 0 ? search(a) : Least{0, 0, 0};
    if (std::isnan(least.draft))
        return nan;
    const auto g = ground<Slopes>([&](std::size_t i) { return Slopes::input(a[i], i); });
    const Slopes x = g.depth * (least.grid / double{grid_steps});
    const auto p = parts(g, least.critical_depth, least.grid < 0 ? nullptr : &x);
    const Slopes r = second ? p.*first + p.*second : p.*first;
    std::copy(r.slope.begin(), r.slope.end(), out.begin());
    return r.value;
}

ShankDraft at(const Ground<double>& g, double x) {
    const auto p = parts(g, x, &x);
    return {p.crescent + p.slot, p.crescent, p.slot, p.critical_depth, p.down_force};
}

using Field = double ShankDraft::*;
template <Field field> double value(std::span<const double> args) {
    return shank_draft(args.first<draft_args>()).*field;
}

template <int which> double slopes_of(std::span<const double> args, std::span<double> out) {
    using P = Parts<Slopes>;
    if constexpr (which == 0)
        return slopes(args, out, &P::crescent, &P::slot);
    if constexpr (which == 1)
        return slopes(args, out, &P::critical_depth, nullptr);
    if constexpr (which == 2)
        return slopes(args, out, &P::slot, nullptr);
    if constexpr (which == 3)
        return slopes(args, out, &P::down_force, nullptr);
}

} // namespace

WedgeFactors wedge_factors(double rake, double steel_friction, double friction) {
    const double phi = std::max(friction, shank::least_friction);
    const auto w = shank::wedge(shank::tool(1.0, rake), std::tan(phi * shank::radians),
                                std::tan(steel_friction * shank::radians));
    return {std::atan2(1.0, w.cot_plane) / shank::radians - phi, w.weight, w.cohesion, w.adhesion,
            2 * w.weight};
}

SlotFactors slot_factors(double friction) {
    const auto s = shank::slot(std::max(friction, shank::least_friction));
    return {s.cohesion, s.overburden};
}

ShankDraft shank_draft(Args a) {
    if (!has_answer(a))
        return {nan, nan, nan, nan, nan};
    if (a[0] == 0)
        return {};
    const auto g = ground<double>([&](std::size_t i) { return a[i]; });
    const Least least = search(g, segments(g));
    if (std::isnan(least.draft))
        return {nan, nan, nan, nan, nan};
    return at(g, least.critical_depth);
}

ShankDraft shank_draft_at(Args a, double critical_depth) {
    if (!has_answer(a) || !(critical_depth >= 0) || critical_depth > a[0])
        return {nan, nan, nan, nan, nan};
    return at(ground<double>([&](std::size_t i) { return a[i]; }), critical_depth);
}

std::span<const NativeFunction> deep_draft_functions() {
    static constexpr std::uint32_t arity = draft_args;
    static constexpr NativeFunction functions[] = {
        {"shank_draft", arity, value<&ShankDraft::draft>, slopes_of<0>},
        {"shank_critical_depth", arity, value<&ShankDraft::critical_depth>, slopes_of<1>},
        {"shank_slot_draft", arity, value<&ShankDraft::slot>, slopes_of<2>},
        {"shank_down_force", arity, value<&ShankDraft::down_force>, slopes_of<3>},
    };
    return functions;
}

} // namespace acre::engine
