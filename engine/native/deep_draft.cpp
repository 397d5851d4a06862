#include "engine/native/deep_draft.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <limits>
#include <utility>
#include <vector>

#include "engine/native/draft_search.h"

namespace acre::engine {

namespace {

using shank::Above;
using shank::Ground;
using shank::Layer;
using shank::Least;
using shank::Tool;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
using Args = std::span<const double>;

// No angle that turns the wedge over, nothing negative that cannot be.
bool has_answer(Args a) {
    for (const double x : a)
        if (!std::isfinite(x))
            return false;
    if (a[0] < 0 || !(a[1] > 0) || !(a[2] > 0) || a[2] > 90)
        return false;
    for (std::size_t j = 0; j < shank::layers_of(a.size()); ++j) {
        const std::size_t weight = shank::weight_of(a.size(), j);
        const double* l = &a[weight];
        if (weight == 3 + 6 * j + 1 && l[-1] < 0) // a thickness; the last of old had none
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

// The trials of a job come here with the same angles again and again, and their tangents and
// exponentials cost as much as the search: of each layer the last are kept, and those of the rake.
Ground<double> ground_of(Args a) {
    struct Kept {
        double friction = nan, steel = nan;
        shank::Angles<double> angles;
    };
    thread_local std::array<Kept, most_draft_layers> layers;
    thread_local std::pair<double, Tool<double>> rake{nan, {}};
    if (rake.first != a[2])
        rake = {a[2], shank::tool(a[1], a[2])};
    rake.second.width = a[1];
    return shank::ground<double>(
        a.size(), rake.second, [&](std::size_t i) { return a[i]; },
        [&](double friction, double steel, std::size_t j) {
            Kept& kept = layers[j];
            if (kept.friction != friction || kept.steel != steel)
                kept = {friction, steel, shank::angles(friction, steel)};
            return kept.angles;
        });
}

template <class T> Ground<T> sloped_ground_of(Args a) {
    const auto at = [&](std::size_t i) { return T::input(a[i], i); };
    return shank::ground<T>(a.size(), shank::tool(at(1), at(2)), at,
                            [](const T& friction, const T& steel, std::size_t) {
                                return shank::angles(friction, steel);
                            });
}

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
    const Dual<N> x = g.depth * (least.grid / double{shank::grid_steps});
    const Dual<N> r = part_of(parts(g, least.critical_depth, least.grid < 0 ? nullptr : &x), which);
    std::copy_n(r.slope.begin(), a.size(), out.begin());
    return r.value;
}

template <Which which> double slopes(Args a, std::span<double> out) {
    std::fill(out.begin(), out.end(), nan);
    if (!has_answer(a))
        return nan;
    const Least least = a[0] > 0 ? shank::least_draft(ground_of(a)) : Least{0, 0, 0};
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

// A model asks for draft, slot and critical depth of the same shank, each by a function of its own,
// and asks again of the same depth under another name: the search is the same, and what it found in
// the last calls is kept.
class Past {
  public:
    struct Call {
        std::size_t count = 0;
        std::array<double, draft_args(most_draft_layers)> args;
        ShankDraft draft;

        Call() = default;
        Call(Args a, const ShankDraft& found) : count(a.size()), draft(found) {
            std::copy(a.begin(), a.end(), args.begin());
        }
        bool is(Args a) const {
            return count == a.size() && std::memcmp(args.data(), a.data(), a.size_bytes()) == 0;
        }
    };

    // Where such a call is kept, if it is. A job priced once needs few places, and is sooner there.
    Call& of(Args a) {
        if (++asked_ > calls_.size() && calls_.size() < most)
            calls_.resize(2 * calls_.size());
        // Three sums, so that none waits for the others.
        std::array<std::uint64_t, 3> sum{};
        for (std::size_t i = 0; i + 2 < a.size(); i += 3)
            for (std::size_t k = 0; k < 3; ++k)
                sum[k] = sum[k] * 0x9e3779b97f4a7c15U + std::bit_cast<std::uint64_t>(a[i + k]);
        const std::uint64_t mixed =
            (sum[0] ^ std::rotl(sum[1], 21) ^ std::rotl(sum[2], 42)) * 0x9e3779b97f4a7c15U;
        return calls_[(mixed >> 40U) & (calls_.size() - 1)];
    }

  private:
    static constexpr std::size_t most = 2048; // a batch of lanes, times the depths of one model
    std::vector<Call> calls_ = std::vector<Call>(16);
    std::uint64_t asked_ = 0;
};

using Field = double ShankDraft::*;
template <Field field> double value(Args args) {
    return shank_draft(args).*field;
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
    thread_local Past past;
    Past::Call& call = past.of(a);
    if (!call.is(a)) {
        const auto g = ground_of(a);
        const Least least = shank::least_draft(g);
        const bool found = !std::isnan(least.draft);
        call = {a, found ? at(g, least.critical_depth) : ShankDraft{nan, nan, nan, nan, nan}};
    }
    return call.draft;
}

ShankDraft shank_draft_at(Args a, double critical_depth) {
    if (!has_answer(a) || !(critical_depth >= 0) || critical_depth > a[0])
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
        {"shank_draft", 3, 6, most, draft, slopes<Which::Draft>},
        {"shank_critical_depth", 3, 6, most, critical, slopes<Which::CriticalDepth>},
        {"shank_slot_draft", 3, 6, most, slot, slopes<Which::Slot>},
        {"shank_down_force", 3, 6, most, down, slopes<Which::DownForce>},
        {"shank_draft", old, 0, 0, draft, slopes<Which::Draft>},
        {"shank_critical_depth", old, 0, 0, critical, slopes<Which::CriticalDepth>},
        {"shank_slot_draft", old, 0, 0, slot, slopes<Which::Slot>},
        {"shank_down_force", old, 0, 0, down, slopes<Which::DownForce>},
    };
    return functions;
}

} // namespace acre::engine
