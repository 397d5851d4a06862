// Pairs of edges whose boxes touch, against looking at every pair.
#include "engine/field/box_pairs.h"

#include <algorithm>
#include <random>
#include <vector>

#include <doctest/doctest.h>

namespace box_pairs_test {

using namespace acre::engine;

namespace {

std::vector<PlaneRing> rings_of(const std::vector<PlanePolygon>& polygons) {
    std::vector<PlaneRing> rings;
    for (const PlanePolygon& polygon : polygons) {
        rings.push_back(polygon.outer);
        rings.insert(rings.end(), polygon.holes.begin(), polygon.holes.end());
    }
    return rings;
}

double by_looking(const std::vector<PlanePolygon>& polygons) {
    std::vector<std::pair<Point, Point>> edges;
    for (const PlaneRing& ring : rings_of(polygons))
        for (std::size_t i = 0; i < ring.size(); ++i)
            edges.emplace_back(ring[i], ring[(i + 1) % ring.size()]);
    const auto touch = [](double a, double b, double c, double d) {
        return std::max(std::min(a, b), std::min(c, d)) <= std::min(std::max(a, b), std::max(c, d));
    };
    double pairs = 0;
    for (std::size_t i = 0; i < edges.size(); ++i)
        for (std::size_t k = 0; k < i; ++k) {
            const auto& [a, b] = edges[i];
            const auto& [c, d] = edges[k];
            pairs += touch(a.x, b.x, c.x, d.x) && touch(a.y, b.y, c.y, d.y) ? 1 : 0;
        }
    return pairs;
}

PlaneRing square(double x, double y, double side) {
    return {{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}};
}

} // namespace

TEST_CASE("each edge of a square touches its two neighbors") {
    PlanePolygon one;
    one.outer = square(0, 0, 10);
    CHECK(box_pairs({one}) == 4);
    PlanePolygon far;
    far.outer = square(100, 0, 10);
    CHECK(box_pairs({one, far}) == 8);
    // Side by side: the common edge is there twice, and meets two of the other square beside.
    PlanePolygon beside;
    beside.outer = square(10, 0, 10);
    CHECK(box_pairs({one, beside}) == by_looking({one, beside}));
    one.holes.push_back(square(4, 4, 2));
    CHECK(box_pairs({one}) == 8);
    CHECK(box_pairs({}) == 0);
}

TEST_CASE("the count is that of looking at every pair, with many ends alike") {
    std::mt19937 random(47);
    for (int trial = 0; trial < 40; ++trial) {
        const int wide = 2 + trial; // few places: many edges begin where others end
        std::uniform_int_distribution<> place(-wide, wide);
        std::vector<PlanePolygon> polygons(1 + static_cast<std::size_t>(trial % 3));
        const auto ring = [&] {
            PlaneRing points(3 + static_cast<std::size_t>(trial % 17));
            for (Point& point : points)
                point = {static_cast<double>(place(random)), static_cast<double>(place(random))};
            return points;
        };
        for (PlanePolygon& polygon : polygons) {
            polygon.outer = ring();
            if (trial % 2 == 0)
                polygon.holes = {ring(), ring()};
        }
        CAPTURE(trial);
        CHECK(box_pairs(polygons) == by_looking(polygons));
    }
}

} // namespace box_pairs_test
