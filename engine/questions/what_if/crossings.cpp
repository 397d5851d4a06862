#include "engine/questions/what_if/crossings.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>

#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include "engine/questions/work_limit.h"

namespace acre::engine {
namespace {

constexpr std::size_t coarse_points = 4096;
constexpr std::size_t fine_points = 64; // between two coarse points that decide unlike
constexpr int most_changes = 64;        // followed between two fine points

class Search {
  public:
    Search(const Curve& curve, const PricedJob& job, BreakEvenAnswer& result)
        : curve_(curve),
          job_(job),
          result_(result) {}

    void run() {
        scan();
        note_extremes();
        for (std::size_t k = 0; k + 1 < seen_.size() && !result_.cut; ++k) {
            between(k);
            if (k > 0)
                dent(seen_[k - 1], seen_[k], seen_[k + 1]);
            if (curve_.effort() > max_effort)
                give_up(seen_[k + 1].x);
        }
        close_level(seen_.back().x, 0);
        std::stable_sort(
            result_.crossings.begin(), result_.crossings.end(),
            [](const Crossing& a, const Crossing& b) { return a.x < b.x; });
        std::stable_sort(result_.unanswered.begin(), result_.unanswered.end(),
                         [](const Range& a, const Range& b) { return a.low < b.low; });
    }

  private:
    double height(const CurvePoint& p) const { return p.y - result_.wanted; }
    // -1, 0, 1; 2 where there is no answer. Zero is what the rounding of the line's own arithmetic
    // may leave.
    int side(const CurvePoint& p) const {
        const double h = height(p);
        return std::isnan(h) ? 2 : std::fabs(h) <= tolerance_ ? 0 : h < 0 ? -1 : 1;
    }

    // Evenly over the range; half of the points evenly in its logarithm where it spans orders of
    // size.
    void scan() {
        const auto [low, high] = result_.range;
        const bool orders = low > 0 && high / low > 50;
        std::vector<double> x;
        const std::size_t even = orders ? coarse_points / 2 : coarse_points;
        for (std::size_t k = 0; k <= even; ++k)
            x.push_back(low + (high - low) * static_cast<double>(k) / static_cast<double>(even));
        for (std::size_t k = 1; orders && k < even; ++k)
            x.push_back(low *
                        std::pow(high / low, static_cast<double>(k) / static_cast<double>(even)));
        std::sort(x.begin(), x.end());
        x.erase(std::unique(x.begin(), x.end()), x.end());
        x.back() = high;
        std::vector<CurvePoint> coarse(x.size());
        curve_.read(x, coarse);

        x.clear();
        std::size_t unlike = 1;
        for (std::size_t k = 0; k + 1 < coarse.size(); ++k)
            unlike += coarse[k].state != coarse[k + 1].state ? 1 : 0;
        const std::size_t fine = std::clamp<std::size_t>(
            max_effort / 4 / (unlike * curve_.effort_of_point()), 1, fine_points);
        for (std::size_t k = 0; k + 1 < coarse.size(); ++k) {
            x.push_back(coarse[k].x);
            if (coarse[k].state != coarse[k + 1].state)
                for (std::size_t j = 1; j < fine; ++j)
                    x.push_back(coarse[k].x + (coarse[k + 1].x - coarse[k].x) *
                                                  static_cast<double>(j) /
                                                  static_cast<double>(fine));
        }
        x.push_back(high);
        seen_.resize(x.size());
        curve_.read(x, seen_);
        result_.looked_at = coarse.size() + seen_.size();
        double size = std::fabs(result_.wanted);
        for (const CurvePoint& p : seen_)
            if (std::isfinite(p.y))
                size = std::max(size, std::fabs(p.y));
        tolerance_ = 4 * std::numeric_limits<double>::epsilon() * size;
    }

    void note_extremes() {
        constexpr double infinity = std::numeric_limits<double>::infinity();
        result_.least = infinity;
        result_.greatest = -infinity;
        double nearest = infinity;
        for (std::size_t k = 0; k < seen_.size(); ++k) {
            const CurvePoint& p = seen_[k];
            if (std::isnan(p.y)) {
                if (k == 0 || !std::isnan(seen_[k - 1].y))
                    result_.unanswered.push_back({p.x, p.x});
                result_.unanswered.back().high = p.x;
                continue;
            }
            if (p.y < result_.least)
                result_.least = p.y, result_.least_at = p.x;
            if (p.y > result_.greatest)
                result_.greatest = p.y, result_.greatest_at = p.x;
            if (std::fabs(height(p)) < nearest) {
                nearest = std::fabs(height(p));
                result_.nearest = p.y, result_.nearest_at = p.x;
            }
        }
    }

    void between(std::size_t k) {
        const CurvePoint &a = seen_[k], &b = seen_[k + 1];
        if (a.state == b.state)
            return smooth(a, b);
        if (side(a) == side(b) && !may_reach(k)) { // decisions that do not take the line across
            if (side(a) == 0)
                open_level(a.x, b.x, 0);
            return;
        }
        CurvePoint from = a;
        for (int changes = 0; from.state != b.state; ++changes) {
            if (curve_.effort() > max_effort)
                return give_up(from.x);
            if (changes == most_changes) {
                result_.cut = true;
                return;
            }
            const Curve::Change change = curve_.first_change(from, b);
            smooth(from, change.before);
            across(change);
            from = change.after;
        }
        smooth(from, b);
    }

    // Two points of unlike pieces on one side of the value: whether a piece, going on as it comes,
    // or twice as steeply, is at the value before the other point.
    bool may_reach(std::size_t k) const {
        const CurvePoint &a = seen_[k], &b = seen_[k + 1];
        const int s = side(a);
        if (s != 1 && s != -1)
            return false;
        const auto reaches = [&](const CurvePoint& before, const CurvePoint& last) {
            const double slope = (last.y - before.y) / (last.x - before.x);
            return before.state == last.state &&
                   s * (height(last) + 2 * slope * (a.x - last.x + b.x - last.x)) <= tolerance_;
        };
        return (k > 0 && reaches(seen_[k - 1], a)) ||
               (k + 2 < seen_.size() && reaches(seen_[k + 2], b));
    }

    // Within one piece.
    void smooth(const CurvePoint& a, const CurvePoint& b) {
        const int left = side(a), right = side(b);
        if (left == 0)
            open_level(a.x, a.x, 0);
        if (left == 0 && right != 0)
            close_level(a.x, right);
        if (left * right == -1)
            root(a, b);
        if (right == 0)
            open_level(b.x, b.x, left);
    }

    void across(const Curve::Change& change) {
        const int left = side(change.before), right = side(change.after);
        if (left == 0 && right != 0)
            close_level(change.before.x, right);
        if (left != 0 && right == 0)
            open_level(change.after.x, change.after.x, left);
        if (left * right != -1)
            return;
        const double scale = std::max(std::fabs(change.before.y), std::fabs(change.after.y));
        if (std::fabs(change.after.y - change.before.y) <= 1e-9 * scale)
            return add({CrossingKind::Root, change.before.x, change.before.x, 0, 0, right > 0, {}});
        const lang::LineId id =
            change.decided == no_slot ? lang::none : job_.compiled().origins.line[change.decided];
        std::string line = id == lang::none ? "" : job_.sheet().lines[id].name;
        add({CrossingKind::Jump, change.before.x, change.after.x, change.before.y, change.after.y,
             right > 0, std::move(line)});
    }

    void root(const CurvePoint& a, const CurvePoint& b) {
        std::uintmax_t steps = 200;
        const auto [low, high] = boost::math::tools::toms748_solve(
            [&](double x) { return height(curve_.at(x)); }, a.x, b.x, height(a), height(b),
            boost::math::tools::eps_tolerance<double>(50), steps);
        const double left = std::fabs(height(curve_.at(low))),
                     right = std::fabs(height(curve_.at(high)));
        if (!(std::min(left, right) <= std::max(std::fabs(height(a)), std::fabs(height(b))))) {
            result_.unanswered.push_back(
                {low, high}); // a pole: the line leaves on one side and comes back from the other
            return;
        }
        const double x = low + (high - low) / 2;
        add({CrossingKind::Root, x, x, 0, 0, side(b) > 0, {}});
    }

    // Three points of one piece on one side of the value, the middle one nearest: the line may dip
    // across in between.
    void dent(const CurvePoint& a, const CurvePoint& b, const CurvePoint& c) {
        const int s = side(b);
        if (a.state != b.state || b.state != c.state || side(a) != s || side(c) != s ||
            (s != 1 && s != -1))
            return;
        const double ha = s * height(a), hb = s * height(b), hc = s * height(c);
        if (!(hb <= ha && hb < hc) || hb > 2 * (std::max(ha, hc) - hb))
            return;
        const double x = boost::math::tools::brent_find_minima(
                             [&](double at) { return s * height(curve_.at(at)); }, a.x, c.x, 50)
                             .first;
        const CurvePoint deepest = curve_.at(x);
        if (side(deepest) == 0) {
            add({CrossingKind::Touch, x, x, 0, 0, false, {}});
        } else if (side(deepest) == -s) {
            root(a, deepest);
            root(deepest, c);
        }
        if (std::fabs(height(deepest)) < std::fabs(result_.nearest - result_.wanted))
            result_.nearest = deepest.y, result_.nearest_at = x;
    }

    void give_up(double at) {
        result_.cut = true;
        if (!result_.searched_to)
            result_.searched_to = at;
    }

    // `before`, `after`: the sides that the line comes from and leaves to; 0: not known.
    void open_level(double from, double to, int before) {
        if (!level_)
            level_ = Level{{from, to}, before};
        level_->at.high = to;
    }
    void close_level(double x, int after) {
        if (!level_)
            return;
        const auto [at, before] = *level_;
        level_.reset();
        const double high = std::max(at.high, x);
        const bool told = !result_.crossings.empty() &&
                          result_.crossings.back().kind == CrossingKind::Level &&
                          is_one_place(result_.crossings.back().x_after, high);
        if (told) // what rounding leaves of it
            return;
        if (!is_one_place(at.low, high))
            add({CrossingKind::Level, at.low, high, 0, 0, false, {}});
        else if (before * after == 1) // both above or both below
            add({CrossingKind::Touch, at.low, at.low, 0, 0, false, {}});
        else
            add({CrossingKind::Root, at.low, at.low, 0, 0, rises(at.low, before, after), {}});
    }
    bool rises(double x, int before, int after) const {
        if (after == 1 || after == -1)
            return after > 0;
        return before == 1 || before == -1 ? before < 0 : curve_.slope(x) > 0;
    }
    static bool is_one_place(double low, double high) {
        return std::fabs(high - low) <= 1e-12 * std::max(std::fabs(low), std::fabs(high));
    }

    void add(Crossing crossing) {
        if (result_.crossings.size() == max_crossings)
            result_.cut = true;
        else
            result_.crossings.push_back(std::move(crossing));
    }

    const Curve& curve_;
    const PricedJob& job_;
    BreakEvenAnswer& result_;
    std::vector<CurvePoint> seen_;
    struct Level {
        Range at;
        int before;
    };
    std::optional<Level> level_;
    double tolerance_ = 0;
};

} // namespace

std::optional<lang::Diagnostic> find_crossings(const Curve& curve, const PricedJob& job,
                                               BreakEvenAnswer& result) {
    if (auto beyond = beyond_effort("the search",
                                    static_cast<double>(curve.effort_of_point()) * coarse_points,
                                    max_effort / 2))
        return beyond;
    result.now = curve.at(result.value).y;
    Search(curve, job, result).run();
    return std::nullopt;
}

} // namespace acre::engine
