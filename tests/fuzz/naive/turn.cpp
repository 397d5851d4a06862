#include "tests/fuzz/naive/turn.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace acre::fuzz::naive {
namespace {

constexpr double circle = 2 * std::numbers::pi;

// How far a circle is followed: to the left (1) or to the right (-1). A whole turn is none.
double bend(double from, double to, int side) {
    double angle = std::fmod(side * (to - from), circle);
    angle += angle < 0 ? circle : 0;
    return angle > circle - 1e-7 ? 0 : angle;
}

// The middle of the circle at that side of a pose.
Spot beside(Spot at, double angle, int side, double radius) {
    return {at.x - side * radius * std::sin(angle), at.y + side * radius * std::cos(angle)};
}

// Which way one looks on a circle followed to that side, where (x, y) points out from its middle.
double heading_at(double x, double y, int side) {
    return side > 0 ? std::atan2(x, -y) : std::atan2(-x, y);
}

} // namespace

double way_around(Spot from, double from_angle, Spot to, double to_angle, double radius) {
    if (std::hypot(to.x - from.x, to.y - from.y) < 1e-6 &&
        std::fabs(std::remainder(to_angle - from_angle, circle)) < 1e-7)
        return 0;
    double least = std::numeric_limits<double>::infinity();
    for (const int first : {1, -1}) {
        const Spot a = beside(from, from_angle, first, radius);
        for (const int last : {1, -1}) {
            const Spot b = beside(to, to_angle, last, radius);
            const double x = b.x - a.x;
            const double y = b.y - a.y;
            const double apart = std::hypot(x, y);
            // A line that touches both circles.
            if (first == last || apart >= 2 * radius * (1 - 1e-12)) {
                const double cross = first == last ? 0 : 2 * radius;
                const double line = std::sqrt(std::max(0.0, apart * apart - cross * cross));
                const double angle = std::atan2(y, x) + first * std::atan2(cross, line);
                least = std::min(least, line + radius * (bend(from_angle, angle, first) +
                                                         bend(angle, to_angle, last)));
            }
            // A third circle that touches both, on either side of the line between them.
            if (first != last || apart > 4 * radius || apart == 0)
                continue;
            const double aside = std::sqrt(std::max(0.0, 4 * radius * radius - apart * apart / 4));
            for (const int side : {1, -1}) {
                const Spot middle{a.x + x / 2 - side * aside * y / apart,
                                  a.y + y / 2 + side * aside * x / apart};
                const double onto = heading_at(middle.x - a.x, middle.y - a.y, first);
                const double off = heading_at(middle.x - b.x, middle.y - b.y, last);
                least =
                    std::min(least, radius * (bend(from_angle, onto, first) +
                                              bend(onto, off, -first) + bend(off, to_angle, last)));
            }
        }
    }
    return least;
}

} // namespace acre::fuzz::naive
