#include "engine/native/draft_search.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#define HWY_DISABLED_TARGETS (HWY_AVX3_DL | HWY_SSSE3 | HWY_SSE4)
#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "engine/native/draft_search.cpp"
#include "hwy/foreach_target.h"

#include "engine/native/pack_choices-inl.h"
#include "hwy/highway.h"

HWY_BEFORE_NAMESPACE();
namespace acre::engine::shank {
namespace HWY_NAMESPACE {
namespace {

using engine::HWY_NAMESPACE::any;
using engine::HWY_NAMESPACE::is_nan;
using engine::HWY_NAMESPACE::least;
using engine::HWY_NAMESPACE::Mask;
using engine::HWY_NAMESPACE::most;
using engine::HWY_NAMESPACE::P;
using engine::HWY_NAMESPACE::pick;
using engine::HWY_NAMESPACE::whole_part;
using engine::HWY_NAMESPACE::operator<;
using engine::HWY_NAMESPACE::operator<=;
using engine::HWY_NAMESPACE::operator==;

constexpr std::size_t grid_points = 64; // more than points a fifth apart

struct Segment {
    Layer<P> layer;
    Above<P> above;
    P bottom;
    P slot_below; // slot draft of all layers beneath, down to the depth
};

// A search in as many grounds of one pattern as P has lanes. Each lane takes the steps it would
// take alone and stands still when it is done. A candidate replaces the best only if it is less, so
// of equals the first in the order of depth stays, whichever is tried first.
class Search {
  public:
    Search(const Ground<P>& ground, Pattern pattern) : tool_(ground.tool), depth_(ground.depth) {
        cut(ground, pattern);
    }

    void run() {
        P first = 1.0;
        const P nothing = 0.0;
        best_.slot = best_.draft = sum_ = slot_from(segments_[0], nothing);
        for (std::size_t j = 0; j < count_; ++j) {
            const Segment& e = segments_[j];
            const bool last = j + 1 == count_;
            const P end = last ? P(grid_steps + 1) : most(first, end_of(e));
            if (j > 0)
                below_others(e, first, end - 1.0);
            else
                top(e, end - 1.0);
            first = end;
            if (!last)
                keep(e, wedge_down_to(tool_, e.above, e.layer, e.bottom), -1.0, e.bottom,
                     nothing == nothing);
        }
        const P none = std::numeric_limits<double>::quiet_NaN();
        const Mask sound = sum_ - sum_ == nothing;
        for (P* field : {&best_.draft, &best_.critical_depth, &best_.slot, &best_.down,
                         &best_.crescent, &best_.grid})
            *field = pick(sound, *field, none);
    }

    struct Found {
        P draft = 0.0, critical_depth = 0.0, slot = 0.0, down = 0.0, crescent = 0.0, grid = 0.0;
    };
    const Found& found() const { return best_; }

  private:
    Tool<P> tool_;
    P depth_;
    std::array<Segment, most_draft_layers> segments_;
    std::size_t count_ = 0;
    Found best_;
    P sum_ = 0.0; // not a number as soon as a draft is not

    struct Three {
        std::array<P, 3> at, draft;
    };

    P depth_of(const P& grid) const { return depth_ * (grid * grid_step); }
    P slot_from(const Segment& e, const P& x) const {
        return slot_draft(tool_, e.layer, e.above.overburden + e.layer.weight * (x - e.above.top),
                          x, e.bottom) +
               e.slot_below;
    }
    void cut(const Ground<P>& ground, Pattern pattern);
    P end_of(const Segment& e) const;
    P keep(const Segment& e, const Wedge<P>& n, const P& grid, const P& x, const Mask& where);
    P try_at(const Segment& e, const P& grid, const Mask& where) {
        const P x = depth_of(grid);
        return keep(e, wedge_down_to(tool_, e.above, e.layer, x), grid, x, where);
    }
    void top(const Segment& e, const P& last);
    void below_others(const Segment& e, const P& first, const P& last);
    void narrow(const Segment& e, Three& valley, const Mask& where);
};

// Layers of no thickness are left out and neighbours of the same ground made one, so a layer that
// is written as two changes nothing, not even the candidates of the search.
void Search::cut(const Ground<P>& ground, Pattern pattern) {
    Above<P> above;
    for (std::size_t j = 0; j < ground.count; ++j) {
        if ((pattern.there >> j & 1U) == 0)
            continue;
        const Layer<P>& l = ground.layer[j];
        const P bottom = least(above.top + l.thickness, depth_);
        if ((pattern.goes_on >> j & 1U) != 0) {
            Segment& before = segments_[count_ - 1];
            before.bottom = bottom;
            above = below(before.above, before.layer, bottom - before.above.top);
        } else {
            segments_[count_++] = {l, above, bottom, 0.0};
            above = below(above, l, bottom - above.top);
        }
        above.top = bottom;
    }
    P slot = 0.0;
    for (std::size_t j = count_; j-- > 0;) {
        Segment& e = segments_[j];
        e.slot_below = slot;
        slot = slot + slot_draft(tool_, e.layer, e.above.overburden, e.above.top, e.bottom);
    }
}

// The first grid point under a layer.
P Search::end_of(const Segment& e) const {
    P end = whole_part(e.bottom / depth_ * grid_steps);
    const P last = grid_steps;
    for (Mask above; any(above = (end <= last) & (depth_of(end) <= e.bottom));)
        end = end + pick(above, 1.0, 0.0);
    return end;
}

P Search::keep(const Segment& e, const Wedge<P>& n, const P& grid, const P& x, const Mask& where) {
    const Force<P> force = crescent(tool_, e.above, e.layer, x, n);
    const P slot = slot_from(e, x);
    const P draft = force.forward + slot;
    sum_ = sum_ + pick(where, draft, 0.0);
    const Mask less =
        where & ((draft < best_.draft) | ((draft == best_.draft) & (x < best_.critical_depth)));
    best_ = {pick(less, draft, best_.draft),
             pick(less, x, best_.critical_depth),
             pick(less, slot, best_.slot),
             pick(less, force.down, best_.down),
             pick(less, force.forward, best_.crescent),
             pick(less, grid, best_.grid)};
    return draft;
}

// In the top layer the mean friction is the layer's own, so one wedge serves all depths and the
// draft is a cubic in the critical depth: least at an end, or beside the root of its slope where
// the slope grows.
void Search::top(const Segment& e, const P& last) {
    const Tool<P>& k = tool_;
    const Layer<P>& l = e.layer;
    const P one = 1.0, nothing = 0.0;
    const Wedge<P> n = wedge(k, one, l.tan_friction, l.tan_steel);
    const Mask any_grid = one <= last;
    keep(e, n, one, depth_of(one), any_grid);
    keep(e, n, last, depth_of(last), any_grid);
    // slope = a x² + 2 h x + c
    const P a = 3.0 * n.forward * n.weight * l.weight * k.spread;
    const P h = n.forward * (n.weight * l.weight * k.width + n.cohesion * l.cohesion * k.spread) -
                0.5 * k.width * l.slot.overburden * l.weight;
    const P c = k.width * (n.forward * (n.cohesion * l.cohesion + n.adhesion * l.adhesion) -
                           l.cohesion * l.slot.cohesion);
    const P root = sqrt(h * h - a * c); // NaN: the draft has no valley
    const P x = pick(nothing < h, -c / (h + root), (root - h) / a);
    const P grid = x / depth_ * grid_steps;
    const Mask where = (nothing < grid) & (grid < last);
    if (!any(where))
        return;
    const P near = whole_part(pick(where, grid, one));
    for (const double away : {-1.0, 0.0, 1.0, 2.0}) {
        const P i = least(most(near + away, one), last);
        keep(e, n, i, depth_of(i), where);
    }
}

// Below other layers the mean friction moves with the depth, and as slowly as the depth does:
// points a fifth apart see every valley, and each is then followed down to its floor.
void Search::below_others(const Segment& e, const P& first, const P& last) {
    std::array<P, grid_points> at, draft;
    std::size_t count = 0;
    const P before_last = most(last - 1.0, first);
    P past = first - 1.0; // the point before, if it had no end
    for (double k = 0, grown = 1; count == 0 || any(at[count - 1] < last); ++k) {
        const P next = most(first + k, whole_part(first * grown));
        const P end = pick(past < before_last, before_last, last);
        at[count++] = pick(next < before_last, next, end);
        past = next;
        grown *= k > 0 ? 1.2 : 1;
    }
    const Mask here = first <= last;
    for (std::size_t k = 0; k < count; ++k)
        draft[k] = try_at(e, at[k], here);
    // The valleys of all lanes are followed together, as far as each lane has one at a time.
    Three valley{};
    Mask waiting = first < first;
    for (std::size_t m = 1; m + 1 < count; ++m) {
        const Mask found = (at[m - 1] < at[m]) & (at[m] < at[m + 1]) & (draft[m] <= draft[m - 1]) &
                           (draft[m] <= draft[m + 1]);
        if (any(found & waiting)) {
            narrow(e, valley, waiting);
            waiting = first < first;
        }
        for (std::size_t k = 0; k < 3; ++k) {
            valley.at[k] = pick(found, at[m - 1 + k], valley.at[k]);
            valley.draft[k] = pick(found, draft[m - 1 + k], valley.draft[k]);
        }
        waiting = waiting | found;
    }
    if (any(waiting))
        narrow(e, valley, waiting);
}

// The floor of a valley between grid points, the middle one the lowest: by the parabola through
// them, by halves where that creeps.
void Search::narrow(const Segment& e, Three& valley, const Mask& where) {
    auto& [at, draft] = valley;
    const P two = 2.0;
    for (int step = 0;; ++step) {
        const Mask open = where & (two < at[2] - at[0]);
        if (!any(open))
            return;
        const P left = at[1] - at[0], right = at[2] - at[1];
        const P p = left * (draft[2] - draft[1]), q = right * (draft[0] - draft[1]);
        P next =
            pick(left < right, at[1] + whole_part(right * 0.5), at[1] - whole_part(left * 0.5));
        if (step < 6) {
            const P wish = at[1] + 0.5 * (q * right - p * left) / (p + q);
            const P inside = least(most(wish, at[0] + 1.0), at[2] - 1.0);
            const P near = whole_part(pick(wish == wish, inside, at[1]) + 0.5);
            const P beside = pick(left < right, at[1] + 1.0, at[1] - 1.0);
            next = pick(wish == wish, pick(near == at[1], beside, near), next);
        }
        const P d = try_at(e, next, open);
        const Mask lower = open & (d < draft[1]);
        const Mask higher = open & ((draft[1] <= d) | is_nan(d));
        const Mask above = next < at[1], beneath = at[1] < next;
        // Lower: the middle becomes the other end. Higher: this becomes the end on its side.
        const Mask ends[] = {(lower & beneath) | (higher & above),
                             (lower & above) | (higher & beneath)};
        for (const std::size_t side : {0U, 1U}) {
            at[2 * side] = pick(ends[side], pick(lower, at[1], next), at[2 * side]);
            draft[2 * side] = pick(ends[side], pick(lower, draft[1], d), draft[2 * side]);
        }
        at[1] = pick(lower, next, at[1]);
        draft[1] = pick(lower, d, draft[1]);
    }
}

P load(const NativeColumn& column, const std::uint16_t* lanes) {
    if (column.same)
        return P(column.at[0]);
    P numbers;
    for (std::size_t k = 0; k < P::width; ++k)
        numbers.at[k] = column.at[lanes[k]];
    return numbers;
}

Ground<P> load(const Ground<NativeColumn>& from, const std::uint16_t* lanes) {
    const Tool<NativeColumn>& t = from.tool;
    Ground<P> g;
    g.depth = load(from.depth, lanes);
    g.tool = {load(t.width, lanes),    load(t.sin_rake, lanes), load(t.cos_rake, lanes),
              load(t.cot_rake, lanes), load(t.spread, lanes),   load(t.over_sin, lanes)};
    g.count = from.count;
    for (std::size_t j = 0; j < from.count; ++j) {
        const Layer<NativeColumn>& l = from.layer[j];
        g.layer[j] = {load(l.thickness, lanes),
                      load(l.weight, lanes),
                      load(l.cohesion, lanes),
                      load(l.adhesion, lanes),
                      load(l.tan_friction, lanes),
                      load(l.tan_steel, lanes),
                      {load(l.slot.cohesion, lanes), load(l.slot.overburden, lanes)}};
    }
    return g;
}

} // namespace

void search(const Ground<NativeColumn>& ground, Pattern pattern,
            std::span<const std::uint16_t> lanes, const LeastRows& out) {
    for (std::size_t i = 0; i < lanes.size(); i += P::width) {
        // Spare lanes of the last group do what its first does.
        const std::size_t here = std::min(P::width, lanes.size() - i);
        std::array<std::uint16_t, P::width> which;
        for (std::size_t k = 0; k < P::width; ++k)
            which[k] = lanes[i + (k < here ? k : 0)];
        Search search(load(ground, which.data()), pattern);
        search.run();
        const auto& found = search.found();
        for (std::size_t k = 0; k < here; ++k) {
            const std::size_t lane = which[k];
            out.draft[lane] = found.draft.at[k];
            out.critical_depth[lane] = found.critical_depth.at[k];
            out.slot[lane] = found.slot.at[k];
            out.down_force[lane] = found.down.at[k];
            out.crescent[lane] = found.crescent.at[k];
            out.grid[lane] = found.grid.at[k];
        }
    }
}

} // namespace HWY_NAMESPACE
} // namespace acre::engine::shank
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace acre::engine::shank {

void least_drafts(const Ground<NativeColumn>& ground, Pattern pattern,
                  std::span<const std::uint16_t> lanes, std::uint32_t bits, const LeastRows& out) {
#if HWY_TARGETS & HWY_AVX3
    if (bits >= 512)
        return N_AVX3::search(ground, pattern, lanes, out);
#endif
#if HWY_TARGETS & HWY_AVX2
    if (bits >= 256)
        return N_AVX2::search(ground, pattern, lanes, out);
#endif
    static_cast<void>(bits);
    HWY_STATIC_DISPATCH(search)(ground, pattern, lanes, out);
}

} // namespace acre::engine::shank
#endif
