#include "engine/native/draft_search.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>

namespace acre::engine::shank {
namespace {

// One layer that reaches above the depth, with all that the search needs to know of its
// surroundings.
struct Segment {
    Layer<double> layer;
    Above<double> above;
    double bottom = 0;
    double slot_below = 0; // slot draft of all layers beneath, down to the depth
};
struct Segments {
    std::array<Segment, most_draft_layers> at;
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
    for (const Layer<double>& l : g.layers()) {
        if (above.top >= g.depth)
            break;
        const double bottom = std::min(above.top + l.thickness, g.depth);
        if (bottom <= above.top)
            continue;
        if (s.count > 0 && alike(s.at[s.count - 1].layer, l)) {
            Segment& last = s.at[s.count - 1];
            last.bottom = bottom;
            above = below(last.above, last.layer, bottom - last.above.top);
        } else {
            s.at[s.count++] = {l, above, bottom, 0};
            above = below(above, l, bottom - above.top);
        }
        above.top = bottom;
    }
    double slot = 0;
    for (std::size_t j = s.count; j-- > 0;) {
        Segment& e = s.at[j];
        e.slot_below = slot;
        slot += slot_draft(g.tool, e.layer, e.above.overburden, e.above.top, e.bottom);
    }
    return s;
}

double slot_from(const Tool<double>& tool, const Segment& e, double x) {
    return slot_draft(tool, e.layer, e.above.overburden + e.layer.weight * (x - e.above.top), x,
                      e.bottom) +
           e.slot_below;
}

// Inlined always: a call in the loop over depths would keep it from becoming vector code.
[[gnu::always_inline]] inline double draft_from(const Tool<double>& tool, const Segment& e,
                                                double x) {
    const auto n = wedge_down_to(tool, e.above, e.layer, x);
    return crescent(tool, e.above, e.layer, x, n).forward + slot_from(tool, e, x);
}

// A search in one ground. A candidate replaces the best only if it is less, so of equals the first
// in the order of depth stays, whichever is tried first.
class Search {
  public:
    explicit Search(const Ground<double>& ground) : ground_(ground), segments_(segments(ground)) {}

    Least run() {
        int first = 1;
        keep(0, 0, slot_from(ground_.tool, segments_.at[0], 0));
        for (std::size_t j = 0; j < segments_.count; ++j) {
            const Segment& e = segments_.at[j];
            const bool last = j + 1 == segments_.count;
            const int end = last ? grid_steps + 1 : std::max(first, end_of(e));
            if (first < end && e.above.top > 0)
                below_others(e, first, end - 1);
            else if (first < end)
                top(e, end - 1);
            first = end;
            if (!last)
                keep(-1, e.bottom, draft_from(ground_.tool, e, e.bottom));
        }
        return std::isfinite(sum_) ? best_ : Least{};
    }

  private:
    const Ground<double>& ground_;
    Segments segments_;
    Least best_;
    double sum_ = 0; // not a number as soon as one of them is not

    double depth_of(int grid) const { return ground_.depth * (grid / double{grid_steps}); }

    // The first grid point under a layer.
    int end_of(const Segment& e) const {
        int end = static_cast<int>(e.bottom / ground_.depth * grid_steps);
        while (end <= grid_steps && depth_of(end) <= e.bottom)
            ++end;
        return end;
    }

    double keep(int grid, double x, double draft) {
        sum_ += draft;
        const bool less = draft < best_.draft || std::isnan(best_.draft) ||
                          (draft == best_.draft && x < best_.critical_depth);
        if (less)
            best_ = {draft, x, grid};
        return draft;
    }

    double try_at(const Segment& e, int grid) {
        const double x = depth_of(grid);
        return keep(grid, x, draft_from(ground_.tool, e, x));
    }

    void drafts(const Segment& of, std::span<const int> at, std::span<double> draft) const;
    void top(const Segment& e, int last);
    void below_others(const Segment& e, int first, int last);
    void narrow(const Segment& e, std::array<int, 3> at, std::array<double, 3> draft);
};

// `draft`: as many as `at` and more. Copies, so that the compiler knows that writing a draft
// changes nothing here.
void Search::drafts(const Segment& of, std::span<const int> at, std::span<double> draft) const {
    const Segment e = of;
    const Tool<double> tool = ground_.tool;
    const double depth = ground_.depth;
    for (std::size_t i = 0; i < at.size(); ++i)
        draft[i] = draft_from(tool, e, depth * (at[i] / double{grid_steps}));
}

// In the top layer the mean friction is the layer's own, so one wedge serves all depths and the
// draft is a cubic in the critical depth: least at an end, or beside a root of its slope.
void Search::top(const Segment& e, int last) {
    const Tool<double>& k = ground_.tool;
    const Layer<double>& l = e.layer;
    const auto n = wedge(k, l.tan_friction, l.tan_steel);
    const auto at = [&](int grid) {
        const double x = depth_of(grid);
        keep(grid, x, crescent(k, e.above, l, x, n).forward + slot_from(k, e, x));
    };
    at(1);
    at(last);
    // slope = a x² + 2 h x + c
    const double a = 3 * n.forward * n.weight * l.weight * k.spread;
    const double h =
        n.forward * (n.weight * l.weight * k.width + n.cohesion * l.cohesion * k.spread) -
        0.5 * k.width * l.slot.overburden * l.weight;
    const double c = k.width * (n.forward * (n.cohesion * l.cohesion + n.adhesion * l.adhesion) -
                                l.cohesion * l.slot.cohesion);
    const double inside = h * h - a * c;
    if (!(inside >= 0))
        return;
    const double q = -(h + std::copysign(std::sqrt(inside), h));
    for (const double root : {q / a, c / q}) {
        const double grid = root / ground_.depth * grid_steps;
        if (!(grid > 0 && grid < last))
            continue;
        for (int i = std::max(1, static_cast<int>(grid) - 1);
             i <= std::min(last, static_cast<int>(grid) + 2); ++i)
            at(i);
    }
}

// Below other layers the mean friction moves with the depth, and as slowly as the depth does:
// points a fifth apart see every valley, and each is then followed down to its floor.
void Search::below_others(const Segment& e, int first, int last) {
    std::array<int, 64> at;
    std::array<double, 64> draft;
    std::size_t count = 0;
    const auto add = [&](int i) {
        if (count == 0 || i > at[count - 1])
            at[count++] = i;
    };
    add(first);
    for (int i = first + 1; i < last - 1; i += 1 + i / 5)
        add(i);
    add(std::max(first, last - 1));
    add(last);
    drafts(e, std::span(at).first(count), draft);
    for (std::size_t i = 0; i < count; ++i)
        keep(at[i], depth_of(at[i]), draft[i]);
    for (std::size_t i = 1; i + 1 < count; ++i)
        if (draft[i] <= draft[i - 1] && draft[i] <= draft[i + 1])
            narrow(e, {at[i - 1], at[i], at[i + 1]}, {draft[i - 1], draft[i], draft[i + 1]});
}

// The floor of a valley between grid points, the middle one the lowest: by the parabola through
// them, by halves where that creeps.
void Search::narrow(const Segment& e, std::array<int, 3> at, std::array<double, 3> draft) {
    for (int step = 0; at[2] - at[0] > 2; ++step) {
        const int left = at[1] - at[0], right = at[2] - at[1];
        const double p = left * (draft[2] - draft[1]), q = right * (draft[0] - draft[1]);
        int next = right > left ? at[1] + right / 2 : at[1] - left / 2;
        if (const double away = 0.5 * (q * right - p * left) / (p + q);
            step < 6 && std::abs(away) < grid_steps) {
            next = std::clamp(at[1] + static_cast<int>(std::lround(away)), at[0] + 1, at[2] - 1);
            if (next == at[1])
                next = right > left ? at[1] + 1 : at[1] - 1;
        }
        const double d = try_at(e, next);
        const std::size_t side = next > at[1] ? 2 : 0;
        if (d < draft[1]) { // the middle becomes the other end
            at[2 - side] = at[1];
            draft[2 - side] = draft[1];
            at[1] = next;
            draft[1] = d;
        } else {
            at[side] = next;
            draft[side] = d;
        }
    }
}

} // namespace

Least least_draft(const Ground<double>& ground) {
    return Search(ground).run();
}

} // namespace acre::engine::shank
