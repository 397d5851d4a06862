// From one value to another.
#pragma once

namespace acre::engine {

struct Range {
    double low = 0, high = 0;
    bool contains(double x) const { return low <= x && x <= high; }
    double width() const { return high - low; }
};

} // namespace acre::engine
