#include "engine/native/deep_draft.h"

#include <cmath>
#include <limits>
#include <utility>

#include "engine/native/draft_search.h"

namespace acre::engine {

namespace {

using shank::Above;
using shank::Ground;
using shank::Layer;
using shank::Least;
using shank::Tool;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
using Args = std::span<const double, draft_args>;
using Slopes = Dual<draft_args>;

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

// The trials of a job come here with the same angles again and again, and their tangents and
// exponentials cost as much as the search: of each layer the last are kept, and those of the rake.
Ground<double> ground_of(Args a) {
    struct Kept {
        double friction = nan, steel = nan;
        shank::Angles<double> angles;
    };
    thread_local std::array<Kept, draft_layers> layers;
    thread_local std::pair<double, Tool<double>> rake{nan, {}};
    if (rake.first != a[2])
        rake = {a[2], shank::tool(a[1], a[2])};
    rake.second.width = a[1];
    return shank::ground<double>(
        rake.second, [&](std::size_t i) { return a[i]; },
        [&](double friction, double steel, std::size_t j) {
            Kept& kept = layers[j];
            if (kept.friction != friction || kept.steel != steel)
                kept = {friction, steel, shank::angles(friction, steel)};
            return kept.angles;
        });
}

Ground<Slopes> sloped_ground_of(Args a) {
    const auto at = [&](std::size_t i) { return Slopes::input(a[i], i); };
    return shank::ground<Slopes>(shank::tool(at(1), at(2)), at,
                                 [](const Slopes& friction, const Slopes& steel, std::size_t) {
                                     return shank::angles(friction, steel);
                                 });
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
    const Least least = a[0] > 0 ? shank::least_draft(ground_of(a)) : Least{0, 0, 0};
    if (std::isnan(least.draft))
        return nan;
    const auto g = sloped_ground_of(a);
    const Slopes x = g.depth * (least.grid / double{shank::grid_steps});
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
    const auto g = ground_of(a);
    const Least least = shank::least_draft(g);
    if (std::isnan(least.draft))
        return {nan, nan, nan, nan, nan};
    return at(g, least.critical_depth);
}

ShankDraft shank_draft_at(Args a, double critical_depth) {
    if (!has_answer(a) || !(critical_depth >= 0) || critical_depth > a[0])
        return {nan, nan, nan, nan, nan};
    return at(ground_of(a), critical_depth);
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
