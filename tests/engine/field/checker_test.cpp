// Three hundred random fields with holes, notches and blocks, measured by another library and by
// hand: ripped and doubled ground, lines, ways, turn radius, and the heading that was found.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "engine/field/headings.h"
#include "engine/field/inset.h"
#include "engine/field/layout.h"
#include "engine/field/turn.h"
#include "tests/engine/field/checker.h"

namespace checker_test {

using namespace acre;
using namespace acre::engine;
using namespace field_checker;

namespace {

constexpr int fields = 300;

LayoutRequest some_request(std::mt19937_64& random, int round) {
    LayoutRequest request;
    request.spacing = dice(random, 4, 10);
    request.heading = dice(random, 0, 180);
    request.speed = 0.7;
    request.turn_time = dice(random, 5, 60);
    request.row_ends = round % 3 == 0 ? dice(random, 0.5, 6) : 0;
    request.headland = round % 5 == 0 ? dice(random, 0.5, 8) : 0;
    request.passes_per_row = round % 7 == 0 ? 1.5 : round % 7 == 1 ? 2 : 1;
    request.turn_diameter = round % 2 == 0 ? dice(random, 2, 25) : 0;
    return request;
}

// The way from one pull to the next, walked along points of the turn: begins and ends where the
// pulls do and as they point, and bends nowhere tighter than the circle.
double walked(const Pull& from, const Pull& to, double diameter) {
    const auto angle = [](const Pull& p) {
        return std::atan2(p.to.y - p.from.y, p.to.x - p.from.x);
    };
    const double step = diameter / 100;
    const Turn turn = shortest_turn({from.to, angle(from)}, {to.from, angle(to)}, diameter);
    const std::vector<Point> points = turn_points(turn, step);
    CHECK(straight(points.front(), from.to) < 1e-9);
    CHECK(straight(points.back(), to.from) < 1e-5);
    double way = 0;
    double tightest = 1e9;
    std::vector<Point> path{
        {from.to.x - 1e-4 * std::cos(angle(from)), from.to.y - 1e-4 * std::sin(angle(from))}};
    path.insert(path.end(), points.begin(), points.end());
    path.push_back(
        {to.from.x + 1e-4 * std::cos(angle(to)), to.from.y + 1e-4 * std::sin(angle(to))});
    double before = angle(from);
    for (std::size_t i = 1; i < path.size(); ++i) {
        const double length = straight(path[i - 1], path[i]);
        if (length < 1e-5) // rounding would show as a bend
            continue;
        const double here = std::atan2(path[i].y - path[i - 1].y, path[i].x - path[i - 1].x);
        // A chord turns by half its own bend and half that of the one before: at most a step's.
        const double bend = std::abs(std::remainder(here - before, 2 * std::numbers::pi));
        if (bend > 1e-6)
            tightest = std::min(tightest, step / bend);
        before = here;
        way += length;
    }
    CHECK(tightest > diameter / 2 * 0.98);
    return way;
}

// Every row of the ground, cut by the other library, against the pulls of the same row.
void check_lines(const Layout& layout, const LayoutRequest& request) {
    const Seen seen(request.heading);
    const BoostPolygons all = in_boost(layout.worked);
    double low = 1e9, high = -1e9, left = 1e9, right = -1e9;
    for (const BoostPolygon& polygon : all)
        for (const BoostPoint& p : polygon.outer()) {
            low = std::min(low, seen.across({p.x(), p.y()}));
            high = std::max(high, seen.across({p.x(), p.y()}));
            left = std::min(left, seen.along({p.x(), p.y()}));
            right = std::max(right, seen.along({p.x(), p.y()}));
        }
    double expected = 0;
    std::map<std::size_t, double> by_row;
    for (std::size_t row = 0; low + (static_cast<double>(row) + 0.5) * request.spacing < high;
         ++row) {
        const int passes = passes_of(row, request.passes_per_row);
        for (int pass = 0; pass < passes; ++pass) {
            const double y =
                low + (static_cast<double>(row) + (pass + 0.5) / passes) * request.spacing;
            by_row[row] +=
                line_inside(all, seen.at(left - 1, y), seen.at(right + 1, y), request.row_ends);
        }
        expected += by_row[row];
    }
    for (const Pull& pull : layout.pulls)
        by_row[pull.row] -= straight(pull.from, pull.to);
    double worst = 0;
    for (const auto& [row, left_over] : by_row)
        worst = std::max(worst, std::abs(left_over));
    CHECK(worst < 0.05);
    CHECK(layout.travel == doctest::Approx(expected).epsilon(1e-5));
}

void check_ways(const Layout& layout, const LayoutRequest& request) {
    const Seen seen(request.heading);
    double between = 0;
    std::size_t turns = 0;
    for (std::size_t i = 1; i < layout.pulls.size(); ++i) {
        const Pull& a = layout.pulls[i - 1];
        const Pull& b = layout.pulls[i];
        const bool same_line = std::abs(seen.across(a.to) - seen.across(b.from)) < 1e-6 && b.lifted;
        CHECK(same_line == b.lifted);
        turns += b.lifted ? 0 : 1;
        between += request.turn_diameter == 0 || b.lifted ? straight(a.to, b.from)
                                                          : walked(a, b, request.turn_diameter);
    }
    CHECK(layout.turns == turns);
    // A polygon in a circle of a hundred corners is shorter by some ten-thousandths.
    CHECK(layout.between == doctest::Approx(between).epsilon(3e-4));
    CHECK(layout.time() == doctest::Approx((layout.travel + between) / request.speed +
                                           static_cast<double>(turns) * request.turn_time)
                               .epsilon(3e-4));
}

} // namespace

TEST_CASE("ripped, doubled and left ground, lines, ways and turns of 300 fields") {
    std::mt19937_64 random(31);
    for (int round = 0; round < fields; ++round) {
        CAPTURE(round);
        PlaneField field = some_field(random, 60);
        const LayoutRequest request = some_request(random, round);
        const BoostPolygons ground = in_boost(field.polygons);
        if (!bg::is_valid(ground)) // a hole may reach over the edge
            for (PlanePolygon& polygon : field.polygons)
                polygon.holes.clear();
        field.area = plane_area(field.polygons);
        const lang::Outcome<Layout> layout = lay_out(field, request);
        REQUIRE(layout);
        const Covered ripped = covered(layout->worked, layout->pulls, request);
        CHECK(layout->ripped_area == doctest::Approx(ripped.ripped).epsilon(2e-5));
        CHECK(std::abs(layout->doubled_area - ripped.doubled) < 1e-5 * field.area);
        const double all = bg::area(in_boost(field.polygons));
        CHECK(layout->ripped_area + layout->unripped.headland + layout->unripped.row_ends +
                  layout->unripped.gaps ==
              doctest::Approx(all).epsilon(1e-6));
        CHECK(layout->unripped.headland ==
              doctest::Approx(all - bg::area(in_boost(layout->worked))).epsilon(1e-5));
        double by_block = 0;
        for (const BlockLayout& block : layout->blocks)
            by_block += block.ripped_area;
        CHECK(by_block == doctest::Approx(layout->ripped_area));
        check_lines(*layout, request);
        check_ways(*layout, request);
    }
}

TEST_CASE("a headland is as wide as asked, and no wider than its corners need") {
    std::mt19937_64 random(32);
    for (int round = 0; round < 60; ++round) {
        CAPTURE(round);
        PlaneField field = some_field(random, 60);
        for (PlanePolygon& polygon : field.polygons)
            polygon.holes.clear();
        const double wide = dice(random, 0.5, 12);
        const auto worked = inset(field.polygons, wide);
        REQUIRE(worked);
        BoostLines edges;
        std::size_t corners = 0;
        for (const BoostPolygon& polygon : in_boost(field.polygons)) {
            edges.emplace_back(polygon.outer().begin(), polygon.outer().end());
            corners += polygon.outer().size();
        }
        for (const PlanePolygon& polygon : *worked)
            for (const Point& p : polygon.outer)
                CHECK(bg::distance(BoostPoint(p.x, p.y), edges) > wide - 0.02);
        // All ground farther than that from every edge, with rounded corners; a corner that points
        // inward may take h² (tan 60° - pi / 3) more, or is cut off.
        BoostPolygons kept;
        bg::buffer(in_boost(field.polygons), kept,
                   bg::strategy::buffer::distance_symmetric<double>(-wide),
                   bg::strategy::buffer::side_straight(), bg::strategy::buffer::join_round(90),
                   bg::strategy::buffer::end_flat(), bg::strategy::buffer::point_circle(8));
        const double most = bg::area(kept);
        const double area = plane_area(*worked);
        CHECK(area < most * 1.0005 + 2);
        CHECK(area > most - 2 - 0.7 * wide * wide * static_cast<double>(corners));
    }
}

namespace {

// One row after the other over every gap, as a driver without a plan would, cut by hand.
double naive_time(const PlaneField& field, const LayoutRequest& request) {
    const Seen seen(request.heading);
    std::vector<std::pair<Point, Point>> edges; // along, across; by across
    double low = 1e9, high = -1e9;
    for (const PlanePolygon& polygon : field.polygons) {
        const auto add = [&](const PlaneRing& ring) {
            for (std::size_t i = 0; i < ring.size(); ++i) {
                Point a{seen.along(ring[i]), seen.across(ring[i])};
                const Point& next = ring[(i + 1) % ring.size()];
                Point b{seen.along(next), seen.across(next)};
                low = std::min(low, a.y);
                high = std::max(high, a.y);
                edges.emplace_back(a.y < b.y ? a : b, a.y < b.y ? b : a);
            }
        };
        add(polygon.outer);
        for (const PlaneRing& hole : polygon.holes)
            add(hole);
    }
    double way = 0;
    Point at{};
    std::size_t rows = 0;
    for (double y = low + request.spacing / 2; y < high; y += request.spacing) {
        std::vector<double> cuts;
        for (const auto& [a, b] : edges)
            if (a.y <= y && y < b.y)
                cuts.push_back(a.x + (y - a.y) * (b.x - a.x) / (b.y - a.y));
        if (cuts.empty())
            continue;
        std::sort(cuts.begin(), cuts.end());
        if (rows % 2 == 1)
            std::reverse(cuts.begin(), cuts.end());
        for (std::size_t i = 0; i < cuts.size(); ++i) {
            const Point next{cuts[i], y};
            way += rows == 0 && i == 0 ? 0 : straight(at, next);
            at = next;
        }
        ++rows;
    }
    return way / request.speed + static_cast<double>(rows - 1) * request.turn_time;
}

} // namespace

TEST_CASE("the heading found is as fast as any whole degree by hand, on 300 fields") {
    std::mt19937_64 random(33);
    for (int round = 0; round < fields; ++round) {
        CAPTURE(round);
        PlaneField field = some_field(random, 45);
        for (PlanePolygon& polygon : field.polygons)
            polygon.block = 0; // a driver without a plan knows no blocks
        if (!bg::is_valid(in_boost(field.polygons)))
            for (PlanePolygon& polygon : field.polygons)
                polygon.holes.clear();
        field.area = plane_area(field.polygons);
        LayoutRequest request = some_request(random, 1);
        request.turn_diameter = request.headland = request.row_ends = 0;
        request.passes_per_row = 1;
        const lang::Outcome<std::vector<HeadingTime>> ranked =
            rank_headings(field, field.polygons, request);
        REQUIRE(ranked);
        double best = 1e12;
        for (int degrees = 0; degrees < 180; ++degrees) {
            request.heading = degrees;
            best = std::min(best, naive_time(field, request));
        }
        CHECK(ranked->front().time <= best * (1 + 1e-9));
        request.heading = ranked->front().heading;
        const lang::Outcome<Layout> layout = lay_out(field, request);
        REQUIRE(layout);
        CHECK(layout->time() == doctest::Approx(ranked->front().time));
    }
}

TEST_CASE("no whole degree is faster, with blocks, circles, headlands and passes as they come") {
    std::mt19937_64 random(34);
    for (int round = 0; round < 30; ++round) {
        CAPTURE(round);
        const PlaneField field = some_field(random, 40);
        LayoutRequest request = some_request(random, round);
        const auto worked = inset(field.polygons, request.headland);
        REQUIRE(worked);
        const lang::Outcome<std::vector<HeadingTime>> ranked =
            rank_headings(field, *worked, request);
        REQUIRE(ranked);
        const double found = ranked->front().time;
        for (int degrees = 0; degrees < 180; ++degrees) {
            request.heading = degrees;
            if (const lang::Outcome<Layout> layout = lay_out(field, request))
                CHECK(layout->time() >= found * (1 - 1e-9));
        }
        request.heading = ranked->front().heading;
        CHECK(lay_out(field, request)->time() == doctest::Approx(found));
    }
}

} // namespace checker_test
