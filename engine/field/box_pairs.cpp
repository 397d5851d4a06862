#include "engine/field/box_pairs.h"

#include <algorithm>
#include <cstddef>

namespace acre::engine {
namespace {

struct Box {
    Point low, high;
};

std::vector<Box> boxes_of(const std::vector<PlanePolygon>& polygons) {
    std::vector<Box> boxes;
    const auto add = [&](const PlaneRing& ring) {
        for (std::size_t i = 0, n = ring.size(); i < n; ++i) {
            const Point a = ring[i];
            const Point b = ring[i + 1 == n ? 0 : i + 1];
            boxes.push_back({{std::min(a.x, b.x), std::min(a.y, b.y)},
                             {std::max(a.x, b.x), std::max(a.y, b.y)}});
        }
    };
    for (const PlanePolygon& polygon : polygons) {
        add(polygon.outer);
        for (const PlaneRing& hole : polygon.holes)
            add(hole);
    }
    return boxes;
}

// How many of the numbers put in are at or below a rank (Fenwick 1994).
class Counts {
  public:
    explicit Counts(std::size_t ranks) : sums_(ranks + 1, 0) {}
    void add(std::size_t rank, int by) {
        for (std::size_t i = rank + 1; i < sums_.size(); i += i & (~i + 1))
            sums_[i] += by;
    }
    int below(std::size_t rank) const { // of ranks less than this
        int sum = 0;
        for (std::size_t i = rank; i > 0; i -= i & (~i + 1))
            sum += sums_[i];
        return sum;
    }

  private:
    std::vector<int> sums_;
};

} // namespace

double box_pairs(const std::vector<PlanePolygon>& polygons) {
    const std::vector<Box> boxes = boxes_of(polygons);
    std::vector<double> heights;
    for (const Box& box : boxes)
        heights.insert(heights.end(), {box.low.y, box.high.y});
    std::sort(heights.begin(), heights.end());
    heights.erase(std::unique(heights.begin(), heights.end()), heights.end());
    const auto rank = [&](double y) {
        return static_cast<std::size_t>(std::lower_bound(heights.begin(), heights.end(), y) -
                                        heights.begin());
    };
    struct Event { // a box begins or ends; what begins comes first
        double x;
        bool ends;
        std::size_t box;
    };
    std::vector<Event> events;
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        events.push_back({boxes[i].low.x, false, i});
        events.push_back({boxes[i].high.x, true, i});
    }
    std::sort(events.begin(), events.end(), [](const Event& a, const Event& b) {
        return a.x != b.x ? a.x < b.x : a.ends < b.ends;
    });
    Counts lows(heights.size());
    Counts highs(heights.size());
    double pairs = 0;
    for (const Event& event : events) {
        const std::size_t low = rank(boxes[event.box].low.y);
        const std::size_t high = rank(boxes[event.box].high.y);
        if (!event.ends) // begun below its top, less those that end below its bottom
            pairs += lows.below(high + 1) - highs.below(low);
        lows.add(low, event.ends ? -1 : 1);
        highs.add(high, event.ends ? -1 : 1);
    }
    return pairs;
}

} // namespace acre::engine
