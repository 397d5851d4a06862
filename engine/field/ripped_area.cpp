#include "engine/field/ripped_area.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
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

struct Strip {
    double low, high; // y
    Covered covered;
};

std::vector<Strip> strips_of(const std::vector<Track>& tracks, std::span<const Segment> segments) {
    std::vector<Strip> strips;
    for (std::size_t begin = 0; begin < segments.size();) {
        std::size_t end = begin;
        while (end < segments.size() && segments[end].track == segments[begin].track)
            ++end;
        const Track& track = tracks[segments[begin].track];
        strips.push_back({track.low, track.high, Covered(segments.subspan(begin, end - begin))});
        begin = end;
    }
    return strips;
}

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
double ripped_area(const std::vector<PlanePolygon>& ground, const std::vector<Track>& tracks,
                   std::span<const Segment> segments, const Turned& turned) {
    const std::vector<Strip> strips = strips_of(tracks, segments);
    double sum = 0;
    const auto edge = [&](Point a, Point b) {
        const double sign = a.y < b.y ? 1 : -1;
        if (a.y > b.y)
            std::swap(a, b);
        const double slope = (b.x - a.x) / (b.y - a.y);
        auto strip = std::upper_bound(strips.begin(), strips.end(), a.y,
                                      [](double y, const Strip& s) { return y < s.high; });
        for (; strip != strips.end() && strip->low < b.y; ++strip) {
            const double low = std::max(a.y, strip->low);
            const double high = std::min(b.y, strip->high);
            const double from = a.x + (low - a.y) * slope;
            const double to = a.x + (high - a.y) * slope;
            // Along a steep edge the difference of two integrals would cancel.
            sum += sign * (std::abs(to - from) > 1e-6 * (strip->high - strip->low)
                               ? (strip->covered.area(to) - strip->covered.area(from)) / slope
                               : strip->covered.length((from + to) / 2) * (high - low));
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
