#include "engine/field/ripped_area.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <span>

namespace acre::engine {
namespace {

// The segments of one row as a measure of x: how much of them lies to the left of it, and the
// integral of that.
class Covered {
  public:
    explicit Covered(std::span<const Segment> segments) : segments_(segments) {
        double length = 0;
        double area = 0;
        for (std::size_t i = 0; i < segments.size(); ++i) {
            if (i > 0)
                area += length * (segments[i].begin - segments[i - 1].end);
            length_.push_back(length);
            area_.push_back(area);
            const double own = segments[i].end - segments[i].begin;
            area += length * own + own * own / 2;
            length += own;
        }
    }
    double length(double x) const {
        const std::size_t i = at(x);
        return i == segments_.size() ? 0 : length_[i] + inside(i, x);
    }
    double area(double x) const {
        const std::size_t i = at(x);
        if (i == segments_.size())
            return 0;
        const double in = inside(i, x);
        const double beyond = std::max(x - segments_[i].end, 0.0);
        return area_[i] + length_[i] * in + in * in / 2 + (length_[i] + in) * beyond;
    }

  private:
    std::span<const Segment> segments_;
    std::vector<double> length_, area_; // to the left of each segment

    // The last segment that begins to the left of x, or none.
    std::size_t at(double x) const {
        const auto after =
            std::upper_bound(segments_.begin(), segments_.end(), x,
                             [](double value, const Segment& s) { return value < s.begin; });
        return after == segments_.begin() ? segments_.size()
                                          : static_cast<std::size_t>(after - segments_.begin()) - 1;
    }
    double inside(std::size_t i, double x) const {
        return std::min(x, segments_[i].end) - segments_[i].begin;
    }
};

double doubled_area(const PlaneRing& ring) {
    double sum = 0;
    for (std::size_t i = 0, n = ring.size(); i < n; ++i) {
        const Point& a = ring[i];
        const Point& b = ring[i + 1 == n ? 0 : i + 1];
        sum += a.x * b.y - b.x * a.y;
    }
    return sum;
}

} // namespace

// Green's theorem: the area inside is the integral over the edges, run counterclockwise, of what is
// covered to the left of them.
double ripped_area(const std::vector<PlanePolygon>& ground, const Lines& lines, double spacing,
                   const Turned& turned) {
    std::map<std::uint32_t, Covered> rows;
    for (std::size_t begin = 0; begin < lines.segments.size();) {
        std::size_t end = begin;
        while (end < lines.segments.size() && lines.segments[end].row == lines.segments[begin].row)
            ++end;
        rows.emplace_hint(
            rows.end(), lines.segments[begin].row,
            Covered(std::span<const Segment>(lines.segments).subspan(begin, end - begin)));
        begin = end;
    }
    double sum = 0;
    const auto edge = [&](Point a, Point b) {
        const double sign = a.y < b.y ? 1 : -1;
        if (a.y > b.y)
            std::swap(a, b);
        const double first = (a.y - lines.first) / spacing - 0.5;
        auto row = rows.lower_bound(first > 0 ? static_cast<std::uint32_t>(std::floor(first))
                                              : std::uint32_t{0});
        for (; row != rows.end(); ++row) {
            const double middle = lines.first + row->first * spacing;
            const double low = std::max(a.y, middle - spacing / 2);
            const double high = std::min(b.y, middle + spacing / 2);
            if (b.y <= middle - spacing / 2)
                break;
            if (!(high > low))
                continue;
            const double slope = (b.x - a.x) / (b.y - a.y);
            const double from = a.x + (low - a.y) * slope;
            const double to = a.x + (high - a.y) * slope;
            const Covered& covered = row->second;
            // Along a steep edge the difference of two integrals would cancel.
            sum += sign * (std::abs(to - from) > 1e-6 * spacing
                               ? (covered.area(to) - covered.area(from)) / slope
                               : covered.length((from + to) / 2) * (high - low));
        }
    };
    const auto ring = [&](const PlaneRing& points, bool outer) {
        const bool backward = (doubled_area(points) > 0) != outer;
        for (std::size_t i = 0, n = points.size(); i < n; ++i) {
            const Point a = turned.in(points[i]);
            const Point b = turned.in(points[i + 1 == n ? 0 : i + 1]);
            if (a.y != b.y)
                backward ? edge(b, a) : edge(a, b);
        }
    };
    for (const PlanePolygon& polygon : ground) {
        ring(polygon.outer, true);
        for (const PlaneRing& hole : polygon.holes)
            ring(hole, false);
    }
    return sum;
}

} // namespace acre::engine
