#include "engine/native/deep_draft.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <limits>
#include <utility>
#include <vector>

#include "engine/native/draft_lanes.h"

namespace acre::engine {

namespace {

using shank::Above;
using shank::Ground;
using shank::Layer;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
using Args = std::span<const double>;

// The parts of the draft at a critical depth, with slopes if T carries them. `x_of`: the critical
// depth from the bottom of the layer that holds it.
template <class T> struct Parts { T crescent, slot, critical_depth, down_force; };
template <class T> Parts<T> parts(const Ground<T>& g, double x_value, const T* x_given) {
    Parts<T> r{T(0.0), T(0.0), T(0.0), T(0.0)};
    Above<T> above;
    bool in_slot = false;
    for (const Layer<T>& l : g.layers()) {
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

Ground<double> ground_of(Args a) {
    return shank::ground<double>(
        a.size(), shank::tool(a[1], a[2]), [&](std::size_t i) { return a[i]; },
        [](double friction, double steel, std::size_t) { return shank::angles(friction, steel); },
        shank::endless);
}

template <class T> Ground<T> sloped_ground_of(Args a) {
    const auto at = [&](std::size_t i) { return T::input(a[i], i); };
    return shank::ground<T>(
        a.size(), shank::tool(at(1), at(2)), at,
        [](const T& friction, const T& steel, std::size_t) {
            return shank::angles(friction, steel);
        },
        T(shank::endless));
}

// What the search found of one shank.
struct Least {
    double draft, critical_depth, slot, down_force, crescent, grid;
};

enum class Which { Draft, CriticalDepth, Slot, DownForce };

template <class T> T part_of(const Parts<T>& parts, Which which) {
    switch (which) {
    case Which::Draft:
        return parts.crescent + parts.slot;
    case Which::CriticalDepth:
        return parts.critical_depth;
    case Which::Slot:
        return parts.slot;
    case Which::DownForce:
        break;
    }
    return parts.down_force;
}

// Value and slopes of the draft or a part of it, at the critical depth that the search finds. A
// critical depth on the grid moves with the depth, one at the bottom of a layer with the thickness
// of the layers above it. N: so many slopes are carried along, those of the arguments first.
template <std::size_t N>
double slopes_at(Args a, std::span<double> out, const Least& least, Which which) {
    const auto g = sloped_ground_of<Dual<N>>(a);
    const Dual<N> x = g.depth * (least.grid * shank::grid_step);
    const Dual<N> r = part_of(parts(g, least.critical_depth, least.grid < 0 ? nullptr : &x), which);
    std::copy_n(r.slope.begin(), a.size(), out.begin());
    return r.value;
}

// Of one call. Narrow vectors: every machine has them, and one lane has nothing to fill wider ones.
Least least_of(Args a) {
    std::array<NativeColumn, draft_args(most_draft_layers)> columns;
    for (std::size_t k = 0; k < a.size(); ++k)
        columns[k] = {&a[k], true};
    Least least;
    shank::drafts(std::span(columns).first(a.size()), 1, 128,
                  {&least.draft, &least.critical_depth, &least.slot, &least.down_force,
                   &least.crescent, &least.grid});
    return least;
}

template <Which which> double slopes(Args a, std::span<double> out) {
    std::fill(out.begin(), out.end(), nan);
    const Least least = least_of(a);
    if (std::isnan(least.draft))
        return nan;
    // Most ground has three layers or fewer: few slopes are quick.
    if (a.size() <= draft_args(3))
        return slopes_at<draft_args(3)>(a, out, least, which);
    if (a.size() <= old_draft_args)
        return slopes_at<old_draft_args>(a, out, least, which);
    return slopes_at<draft_args(most_draft_layers)>(a, out, least, which);
}

ShankDraft at(const Ground<double>& g, double x) {
    const auto p = parts(g, x, &x);
    return {p.crescent + p.slot, p.crescent, p.slot, p.critical_depth, p.down_force};
}

using Field = double ShankDraft::*;
template <Field field> double value(Args args) {
    return shank_draft(args).*field;
}

// The results in the order of Result.
enum Result : std::uint32_t { Draft, CriticalDepth, SlotDraft, DownForce, results };
static_assert(results == native_results && draft_args(most_draft_layers) <= most_native_args);

void lanes(std::span<const NativeColumn> args, std::size_t count, std::uint32_t bits,
           double* const* out) {
    constexpr std::size_t most = 64;
    std::array<double, most> crescent, grid;
    std::array<NativeColumn, draft_args(most_draft_layers)> columns;
    for (std::size_t at = 0; at < count; at += most) {
        for (std::size_t k = 0; k < args.size(); ++k)
            columns[k] = {args[k].at + (args[k].same ? 0 : at), args[k].same};
        shank::drafts(std::span(columns).first(args.size()), std::min(most, count - at), bits,
                      {out[Draft] + at, out[CriticalDepth] + at, out[SlotDraft] + at,
                       out[DownForce] + at, crescent.data(), grid.data()});
    }
}

} // namespace

WedgeFactors wedge_factors(double rake, double steel_friction, double friction) {
    const double phi = std::max(friction, shank::least_friction);
    const double steel = std::tan(steel_friction * shank::radians);
    const auto w = shank::wedge(shank::tool(1.0, rake), 1.0, std::tan(phi * shank::radians), steel);
    const double length = std::hypot(1.0, steel);
    return {std::atan2(1.0, w.cot_plane) / shank::radians - phi, w.weight * length,
            w.cohesion * length, w.adhesion * length, 2 * w.weight * length};
}

SlotFactors slot_factors(double friction) {
    const auto s = shank::slot(std::max(friction, shank::least_friction));
    return {s.cohesion, s.overburden};
}

// A model asks for draft, slot and critical depth of the same shank, each by a function of its own:
// what was found last is kept.
ShankDraft shank_draft(Args a) {
    struct Call {
        std::size_t count = 0;
        std::array<double, draft_args(most_draft_layers)> args;
        ShankDraft draft;
    };
    thread_local Call last;
    if (last.count != a.size() || std::memcmp(last.args.data(), a.data(), a.size_bytes()) != 0) {
        const Least least = least_of(a);
        last.count = a.size();
        std::copy(a.begin(), a.end(), last.args.begin());
        last.draft = {least.draft, least.crescent, least.slot, least.critical_depth,
                      least.down_force};
    }
    return last.draft;
}

ShankDraft shank_draft_at(Args a, double critical_depth) {
    if (!shank::has_answer(a) || !(critical_depth >= 0) || critical_depth > a[0])
        return {nan, nan, nan, nan, nan};
    return at(ground_of(a), critical_depth);
}

std::span<const NativeFunction> deep_draft_functions() {
    static constexpr auto draft = value<&ShankDraft::draft>;
    static constexpr auto critical = value<&ShankDraft::critical_depth>;
    static constexpr auto slot = value<&ShankDraft::slot>;
    static constexpr auto down = value<&ShankDraft::down_force>;
    static constexpr std::uint32_t most = most_draft_layers;
    static constexpr std::uint32_t old = old_draft_args;
    static constexpr NativeFunction functions[] = {
        {"shank_draft", 3, 6, most, lanes, Draft, draft, slopes<Which::Draft>},
        {"shank_critical_depth", 3, 6, most, lanes, CriticalDepth, critical,
         slopes<Which::CriticalDepth>},
        {"shank_slot_draft", 3, 6, most, lanes, SlotDraft, slot, slopes<Which::Slot>},
        {"shank_down_force", 3, 6, most, lanes, DownForce, down, slopes<Which::DownForce>},
        {"shank_draft", old, 0, 0, lanes, Draft, draft, slopes<Which::Draft>},
        {"shank_critical_depth", old, 0, 0, lanes, CriticalDepth, critical,
         slopes<Which::CriticalDepth>},
        {"shank_slot_draft", old, 0, 0, lanes, SlotDraft, slot, slopes<Which::Slot>},
        {"shank_down_force", old, 0, 0, lanes, DownForce, down, slopes<Which::DownForce>},
    };
    return functions;
}

} // namespace acre::engine
