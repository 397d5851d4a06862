#include "engine/field/inset.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <utility>

#include "engine/field/clipper_paths.h"

namespace acre::engine {
namespace {

using ClipperLib::IntPoint;
using ClipperLib::Path;
using ClipperLib::Paths;

double distance_to(IntPoint p, IntPoint a, IntPoint b) {
    const auto x = static_cast<double>(b.X - a.X);
    const auto y = static_cast<double>(b.Y - a.Y);
    const auto px = static_cast<double>(p.X - a.X);
    const auto py = static_cast<double>(p.Y - a.Y);
    const double square = x * x + y * y;
    const double t = square > 0 ? std::clamp((px * x + py * y) / square, 0.0, 1.0) : 0;
    return std::hypot(px - t * x, py - t * y);
}

// The ring without points that bend it by less than `bend`: they cost much time and move no
// headland. From each point that stays as many are left out as the straight edge to the next one
// passes that near; at most so many that the work stays in proportion.
Path thinned(const Path& path, double bend) {
    constexpr std::size_t most_left_out = 60;
    Path thin;
    for (std::size_t at = 0; at < path.size();) {
        thin.push_back(path[at]);
        std::size_t next = at + 1;
        const auto passes = [&](std::size_t to) {
            const IntPoint end = path[to % path.size()];
            for (std::size_t i = at + 1; i < to; ++i)
                if (distance_to(path[i], path[at], end) > bend)
                    return false;
            return true;
        };
        while (next < path.size() && next - at < most_left_out && passes(next + 1))
            ++next;
        at = next;
    }
    return thin.size() < 3 ? path : thin;
}

std::size_t points_in(const Paths& paths) {
    std::size_t points = 0;
    for (const Path& path : paths)
        points += path.size();
    return points;
}

// A quarter turn to the left keeps whole numbers whole.
Path turned(Path path) {
    for (IntPoint& point : path)
        point = {-point.Y, point.X};
    return path;
}
Path turned_back(Path path) {
    for (IntPoint& point : path)
        point = {point.Y, -point.X};
    return path;
}

// Edges beside the heights of all points, as a sweep upward meets them. That many points may end up
// in one ring, which the library goes through again whenever two parts of it meet.
double sweep_effort(const Paths& paths) {
    std::vector<ClipperLib::cInt> heights;
    const std::size_t all = points_in(paths);
    heights.reserve(all);
    for (const Path& path : paths)
        for (const IntPoint& point : path)
            heights.push_back(point.Y);
    std::sort(heights.begin(), heights.end());
    heights.erase(std::unique(heights.begin(), heights.end()), heights.end());
    const auto rank = [&](ClipperLib::cInt y) {
        return static_cast<double>(std::lower_bound(heights.begin(), heights.end(), y) -
                                   heights.begin());
    };
    const auto points = static_cast<double>(all);
    double effort = points * points / 8;
    for (const Path& path : paths) {
        double before = path.empty() ? 0 : rank(path.back().Y);
        for (const IntPoint& point : path) {
            const double here = rank(point.Y);
            effort += std::abs(here - before);
            before = here;
        }
    }
    return effort;
}

// Effort left for all steps of all blocks.
class Shrinker {
  public:
    bool shrink(const std::vector<const PlanePolygon*>& polygons, double distance,
                std::vector<PlanePolygon>& result) {
        Paths paths;
        for (const PlanePolygon* polygon : polygons) {
            paths.push_back(to_clipper(polygon->outer));
            for (const PlaneRing& hole : polygon->holes)
                paths.push_back(to_clipper(hole));
        }
        for (Path& path : paths)
            path = thinned(path, bend);
        const double whole = distance / clipper_unit;
        double done = 0;
        double step = points_in(paths) > most_inset_at_once ? bend : whole;
        for (; done + step < whole; step *= 3) {
            if (!lay_down(paths))
                return false;
            ClipperLib::PolyTree tree;
            run(paths, step, tree);
            done += step;
            ClipperLib::ClosedPathsFromPolyTree(tree, paths);
            for (Path& path : paths)
                path = thinned(path, bend / 4);
        }
        if (!lay_down(paths))
            return false;
        ClipperLib::PolyTree tree;
        run(paths, whole - done, tree);
        const std::size_t before = result.size();
        collect(tree, polygons.front()->block, result);
        for (std::size_t i = before; i < result.size(); ++i)
            turn_back(result[i]);
        return true;
    }

  private:
    static constexpr double bend = 0.01 / clipper_unit;
    double left_ = most_inset_effort;
    bool lies_ = false; // the block at hand is turned by a quarter

    // Long upright edges beside each other are cheap when they lie. False: too much either way.
    bool lay_down(Paths& paths) {
        double effort = sweep_effort(paths);
        if (points_in(paths) > most_inset_at_once) {
            Paths other;
            for (const Path& path : paths)
                other.push_back(lies_ ? turned_back(path) : turned(path));
            if (const double lying = sweep_effort(other); lying < effort) {
                effort = lying;
                paths = std::move(other);
                lies_ = !lies_;
            }
        }
        left_ -= effort;
        return left_ >= 0;
    }
    static void run(const Paths& paths, double step, ClipperLib::PolyTree& tree) {
        ClipperLib::ClipperOffset offset(2.0, bend);
        offset.AddPaths(paths, ClipperLib::jtMiter, ClipperLib::etClosedPolygon);
        offset.Execute(tree, -step);
    }
    void turn_back(PlanePolygon& polygon) const {
        if (!lies_)
            return;
        for (Point& point : polygon.outer)
            point = {point.y, -point.x};
        for (PlaneRing& hole : polygon.holes)
            for (Point& point : hole)
                point = {point.y, -point.x};
    }

  public:
    void begin_block() { lies_ = false; }
};

} // namespace

std::optional<std::vector<PlanePolygon>> inset(const std::vector<PlanePolygon>& polygons,
                                               double distance) {
    if (distance <= 0)
        return polygons;
    std::map<std::uint32_t, std::vector<const PlanePolygon*>> blocks;
    for (const PlanePolygon& polygon : polygons)
        blocks[polygon.block].push_back(&polygon);
    std::vector<PlanePolygon> result;
    Shrinker shrinker;
    for (const auto& [number, block] : blocks) {
        shrinker.begin_block();
        if (!shrinker.shrink(block, distance, result))
            return std::nullopt;
    }
    return result;
}

} // namespace acre::engine
