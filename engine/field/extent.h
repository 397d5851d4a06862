// The upright box around rings: whether two of them can touch, before that is worked out.
#pragma once

#include <algorithm>

#include "engine/field/plane.h"

namespace acre::engine {

struct Extent {
    Point low{1e300, 1e300}, high{-1e300, -1e300};
    void add(const PlaneRing& ring, double around = 0) {
        for (const Point& p : ring) {
            low = {std::min(low.x, p.x - around), std::min(low.y, p.y - around)};
            high = {std::max(high.x, p.x + around), std::max(high.y, p.y + around)};
        }
    }
    bool meets(const Extent& other) const {
        return low.x < other.high.x && other.low.x < high.x && low.y < other.high.y &&
               other.low.y < high.y;
    }
};

} // namespace acre::engine
