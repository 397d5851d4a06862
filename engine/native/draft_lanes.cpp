#include "engine/native/draft_lanes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace acre::engine::shank {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t block = 64; // lanes whose angles are worked out at a time
using Args = std::span<const NativeColumn>;

// What argument k of so many may be by itself: ends are allowed, infinity and NaN never.
struct Allowed {
    double low, high;
};
Allowed allowed(std::size_t args, std::size_t k) {
    constexpr double above_zero = std::numeric_limits<double>::denorm_min();
    constexpr double most = std::numeric_limits<double>::max();
    if (k < 3)
        return {k == 0 ? 0 : above_zero, k == 2 ? 90 : most};
    const std::size_t last = weight_of(args, layers_of(args) - 1);
    const bool without_thickness = args == old_draft_args && k >= last;
    const std::size_t friction = without_thickness ? last + 3 : 3 + (k - 3) / 6 * 6 + 4;
    return {0, k == friction ? std::nextafter(90.0, 0.0) : most};
}
bool turns_over(double rake, double steel) {
    return rake + steel >= 180;
}

// By lane of a block: 1 where there is an answer.
using Sound = std::array<char, block>;

// Clears the lanes in which `is_bad(lane)` holds; if it is the same in all, it is asked once.
template <class Bad> void clear(Sound& sound, std::size_t lanes, bool same, Bad is_bad) {
    if (same) {
        if (is_bad(0))
            sound.fill(0);
        return;
    }
    for (std::size_t i = 0; i < lanes; ++i)
        sound[i] = static_cast<char>(sound[i] & (is_bad(i) ? 0 : 1));
}

Sound sound_lanes(Args a, std::size_t lanes) {
    Sound sound;
    sound.fill(1);
    for (std::size_t k = 0; k < a.size(); ++k) {
        const Allowed may = allowed(a.size(), k);
        clear(sound, lanes, a[k].same,
              [x = a[k].at, may](std::size_t i) { return !(may.low <= x[i] && x[i] <= may.high); });
    }
    for (std::size_t j = 0; j < layers_of(a.size()); ++j) {
        const NativeColumn& rake = a[2];
        const NativeColumn& steel = a[weight_of(a.size(), j) + 4];
        clear(sound, lanes, rake.same && steel.same,
              [&](std::size_t i) { return turns_over(rake[i], steel[i]); });
    }
    return sound;
}

// Calls come with the same angles again and again, and their tangents and exponentials cost as much
// as a search: of each layer the last are kept, and those of the rake.
const Angles<double>& kept_angles(double friction, double steel, std::size_t layer) {
    struct Kept {
        double friction = nan, steel = nan;
        Angles<double> angles;
    };
    thread_local std::array<Kept, most_draft_layers> layers;
    Kept& kept = layers[layer];
    if (kept.friction != friction || kept.steel != steel)
        kept = {friction, steel, angles(friction, steel)};
    return kept.angles;
}
const Tool<double>& kept_tool(double rake) {
    thread_local double kept_rake = nan;
    thread_local Tool<double> kept;
    if (kept_rake != rake) {
        kept = tool(0.0, rake);
        kept_rake = rake;
    }
    return kept;
}

// What the angles of a block come to, in rows.
class Turned {
  public:
    Ground<NativeColumn> ground_of(Args a, std::size_t lanes) {
        const NativeColumn& rake = a[2];
        const auto t = rows(
            tool_, lanes, rake.same,
            [&](std::size_t i) {
                const Tool<double>& k = kept_tool(rake[i]);
                return std::array{k.sin_rake, k.cos_rake, k.cot_rake, k.spread, k.over_sin};
            });
        return ground<NativeColumn>(
            a.size(), {a[1], t[0], t[1], t[2], t[3], t[4]}, [&](std::size_t i) { return a[i]; },
            [&](const NativeColumn& friction, const NativeColumn& steel, std::size_t j) {
                const auto c =
                    rows(layers_[j], lanes, friction.same && steel.same, [&](std::size_t i) {
                        const auto& k = kept_angles(friction[i], steel[i], j);
                        return std::array{k.tan_friction, k.tan_steel, k.slot.cohesion,
                                          k.slot.overburden};
                    });
                return Angles<NativeColumn>{c[0], c[1], {c[2], c[3]}};
            },
            NativeColumn{&endless, true});
    }

  private:
    template <std::size_t count> using Rows = std::array<std::array<double, block>, count>;
    std::array<Rows<4>, most_draft_layers> layers_;
    Rows<5> tool_;

    // What `of` a lane gives, in rows; if it is the same in all, it is asked once.
    template <std::size_t count, class Of>
    static std::array<NativeColumn, count> rows(Rows<count>& to, std::size_t lanes, bool same,
                                                Of of) {
        for (std::size_t i = 0; i < (same ? 1 : lanes); ++i) {
            const std::array<double, count> values = of(i);
            for (std::size_t k = 0; k < count; ++k)
                to[k][i] = values[k];
        }
        std::array<NativeColumn, count> columns;
        for (std::size_t k = 0; k < count; ++k)
            columns[k] = {to[k].data(), same};
        return columns;
    }
};

bool alike(const Layer<NativeColumn>& a, const Layer<NativeColumn>& b, std::size_t lane) {
    return a.weight[lane] == b.weight[lane] && a.cohesion[lane] == b.cohesion[lane] &&
           a.adhesion[lane] == b.adhesion[lane] && a.tan_friction[lane] == b.tan_friction[lane] &&
           a.tan_steel[lane] == b.tan_steel[lane];
}

// False only if no lane can have the two alike.
bool may_be_alike(const Layer<NativeColumn>& a, const Layer<NativeColumn>& b) {
    const auto may = [](const NativeColumn& x, const NativeColumn& y) {
        return !x.same || !y.same || x.at[0] == y.at[0];
    };
    return may(a.weight, b.weight) && may(a.cohesion, b.cohesion) && may(a.adhesion, b.adhesion) &&
           may(a.tan_friction, b.tan_friction) && may(a.tan_steel, b.tan_steel);
}

using Patterns = std::array<Pattern, block>;

void find_patterns(const Ground<NativeColumn>& g, std::size_t lanes, Patterns& patterns) {
    std::array<double, block> top{};
    for (std::size_t j = 0; j < g.count; ++j)
        for (std::size_t i = 0; i < lanes; ++i) {
            const double bottom = std::min(top[i] + g.layer[j].thickness[i], g.depth[i]);
            patterns[i].there |= static_cast<std::uint8_t>((bottom > top[i] ? 1 : 0) << j);
            top[i] = std::max(top[i], bottom);
        }
    for (std::size_t j = 0; j < g.count; ++j)
        for (std::size_t above = 0; above < j; ++above) {
            if (!may_be_alike(g.layer[above], g.layer[j]))
                continue;
            const unsigned between = (1U << j) - (2U << above), both = 1U << j | 1U << above;
            for (std::size_t i = 0; i < lanes; ++i)
                if ((patterns[i].there & (between | both)) == both &&
                    alike(g.layer[above], g.layer[j], i))
                    patterns[i].goes_on |= static_cast<std::uint8_t>(1U << j);
        }
}

void fill(const LeastRows& rows, std::size_t lane, double all) {
    for (double* row :
         {rows.draft, rows.critical_depth, rows.slot, rows.down_force, rows.crescent, rows.grid})
        row[lane] = all;
}

// At most `block` lanes.
void drafts_of_block(Args a, std::size_t lanes, std::uint32_t bits, const LeastRows& rows) {
    const Sound sound = sound_lanes(a, lanes);
    std::array<std::uint16_t, block> order;
    std::size_t count = 0;
    for (std::size_t i = 0; i < lanes; ++i)
        if (sound[i] != 0 && a[0][i] > 0)
            order[count++] = static_cast<std::uint16_t>(i);
        else
            fill(rows, i, sound[i] != 0 ? 0 : nan);
    if (count == 0)
        return;
    Turned turned;
    const Ground<NativeColumn> ground = turned.ground_of(a, lanes);
    Patterns patterns{};
    find_patterns(ground, lanes, patterns);
    const auto by_pattern = [&](std::size_t x, std::size_t y) { return patterns[x] < patterns[y]; };
    const std::span<std::uint16_t> in_order(order.data(), count);
    if (!std::is_sorted(in_order.begin(), in_order.end(), by_pattern))
        std::stable_sort(in_order.begin(), in_order.end(), by_pattern);
    for (std::size_t from = 0, to; from < count; from = to) {
        const Pattern pattern = patterns[order[from]];
        for (to = from; to < count && patterns[order[to]] == pattern;)
            ++to;
        least_drafts(ground, pattern, in_order.subspan(from, to - from), bits, rows);
    }
}

} // namespace

bool has_answer(std::span<const double> args) {
    std::array<NativeColumn, draft_args(most_draft_layers)> columns;
    for (std::size_t k = 0; k < args.size(); ++k)
        columns[k] = {&args[k], true};
    return sound_lanes(std::span(columns).first(args.size()), 1)[0] != 0;
}

void drafts(Args args, std::size_t lanes, std::uint32_t bits, const LeastRows& rows) {
    std::array<NativeColumn, draft_args(most_draft_layers)> columns;
    for (std::size_t at = 0; at < lanes; at += block) {
        for (std::size_t k = 0; k < args.size(); ++k)
            columns[k] = {args[k].at + (args[k].same ? 0 : at), args[k].same};
        drafts_of_block(std::span(columns).first(args.size()), std::min(block, lanes - at), bits,
                        {rows.draft + at, rows.critical_depth + at, rows.slot + at,
                         rows.down_force + at, rows.crescent + at, rows.grid + at});
    }
}

} // namespace acre::engine::shank
