#include "engine/field/turn.h"

#include <cmath>
#include <numbers>
#include <random>
#include <set>

#include <doctest/doctest.h>

#include "engine/field/row_order.h"

namespace turn_test {

using namespace acre::engine;

namespace {
constexpr double pi = std::numbers::pi;

double from_row_to_row(double wide, double diameter) {
    return shortest_turn({{0, 0}, 0}, {{0, wide}, pi}, diameter).length();
}
} // namespace

TEST_CASE("turns into another row are as long as their arcs, by hand") {
    // Two quarter circles and the straight between them where the row is the circle's width away or
    // more; else a loop of three arcs, whose middle circle lies where the sides of the triangle of
    // centers, each a diameter, say: r (pi + 4 acos((d + 2 r) / (4 r))).
    CHECK(from_row_to_row(20, 12) == doctest::Approx(6 * pi + 8));
    CHECK(from_row_to_row(12, 12) == doctest::Approx(6 * pi));
    CHECK(from_row_to_row(5, 12) == doctest::Approx(6 * (pi + 4 * std::acos(17.0 / 24))));
    CHECK(from_row_to_row(1e-9, 12) == doctest::Approx(6 * 7 * pi / 3));
    CHECK(shortest_turn({{0, 0}, 0}, {{0, 5}, pi}, 12).is_loop());
    CHECK_FALSE(shortest_turn({{0, 0}, 0}, {{0, 12.001}, pi}, 12).is_loop());
    CHECK(shortest_turn({{0, 0}, 0}, {{30, 0}, 0}, 12).length() == doctest::Approx(30));
    CHECK(turn_length({{0, 0}, 0}, {{3, 4}, pi}, 0) == doctest::Approx(5));
    // What rounding leaves behind the machine, or before it, is not a circle to drive.
    for (const double behind : {-1e-9, -2.5e-10, 2.5e-10, 1e-9})
        CHECK(shortest_turn({{7, 40}, pi}, {{7 + behind, 40}, pi}, 17).length() < 1e-6);
}

TEST_CASE("a turn ends where and as it should, and a way back is as long") {
    std::mt19937_64 random(41);
    const auto dice = [&](double most) {
        return most * static_cast<double>(random() >> 11) * 0x1p-53;
    };
    for (int round = 0; round < 3000; ++round) {
        CAPTURE(round);
        const double diameter = 1 + dice(20);
        const Pose from{{dice(60), dice(60)}, dice(2 * pi)};
        const Pose to{{dice(60), dice(60)}, dice(2 * pi)};
        const Turn turn = shortest_turn(from, to, diameter);
        const std::vector<Point> points = turn_points(turn, diameter / 400);
        const auto far = [](Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); };
        CHECK(far(points.front(), from.at) < 1e-9);
        CHECK(far(points.back(), to.at) < 1e-6);
        double way = 0;
        for (std::size_t i = 1; i < points.size(); ++i)
            way += far(points[i - 1], points[i]);
        CHECK(way == doctest::Approx(turn.length()).epsilon(1e-4));
        const double back =
            shortest_turn({to.at, to.angle + pi}, {from.at, from.angle + pi}, diameter).length();
        CHECK(back == doctest::Approx(turn.length()));
        CHECK(turn.length() >= far(from.at, to.at) - 1e-9);
    }
}

TEST_CASE("rows are driven each once, none nearer than the circle where there are enough") {
    for (std::size_t skip = 1; skip <= 12; ++skip)
        for (std::size_t count = 1; count <= 150; ++count) {
            CAPTURE(skip);
            CAPTURE(count);
            const std::vector<std::size_t> order = row_order(count, skip);
            CHECK(std::set<std::size_t>(order.begin(), order.end()).size() == count);
            CHECK(order.size() == count);
            std::size_t nearest = count, steps = 0;
            for (std::size_t i = 1; i < order.size(); ++i) {
                const std::size_t step =
                    order[i] > order[i - 1] ? order[i] - order[i - 1] : order[i - 1] - order[i];
                nearest = std::min(nearest, step);
                steps += step;
            }
            if (count >= 2 * skip && count > 1)
                CHECK(nearest >= skip);
            // Steps of skip and skip + 1 by turns are the least there are; lands that are widened
            // by what is left over have a few rows more.
            if (count >= 4 * skip * skip + 8)
                CHECK(static_cast<double>(steps) <=
                      (static_cast<double>(skip) + 1.6) * static_cast<double>(count - 1));
        }
}

TEST_CASE("rows that are far enough apart are driven as they come") {
    CHECK(row_order(5, 1) == std::vector<std::size_t>{0, 1, 2, 3, 4});
    CHECK(row_order(2, 9) == std::vector<std::size_t>{0, 1});
    CHECK(row_order(3, 9) == std::vector<std::size_t>{0, 2, 1}); // the middle one last
    CHECK(row_order(4, 2) == std::vector<std::size_t>{2, 0, 3, 1});
}

TEST_CASE("rows to step over are as many as the circle covers") {
    const std::vector<double> even = {0, 5, 10, 15, 20, 25, 30};
    CHECK(rows_apart(even, 0) == 1);
    CHECK(rows_apart(even, 5) == 1);
    CHECK(rows_apart(even, 5.01) == 2);
    CHECK(rows_apart(even, 14) == 3);
    const std::vector<double> pairs = {0, 3, 21, 24, 42, 45};
    CHECK(rows_apart(pairs, 12) == 2);
    CHECK(rows_apart(pairs, 100) == 6);
}

} // namespace turn_test
