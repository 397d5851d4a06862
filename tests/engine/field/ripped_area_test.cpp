// The acres that are ripped and the order of work, against another library's clipping (which rounds
// to a grid of about 1e-7 of the extent) and against every order there is.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>
#include <random>

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

#include "engine/field/cell_chain.h"
#include "engine/field/layout.h"

namespace ripped_area_test {

using namespace acre;
using namespace acre::engine;

namespace {

namespace bg = boost::geometry;
using BoostPoint = bg::model::d2::point_xy<double>;
using BoostPolygon = bg::model::polygon<BoostPoint>;
using BoostPolygons = bg::model::multi_polygon<BoostPolygon>;

double dice(std::mt19937_64& random, double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 11) * 0x1p-53;
}

PlaneRing star(std::mt19937_64& random, Point middle, int points, double radius) {
    PlaneRing ring;
    for (int i = 0; i < points; ++i) {
        const double angle = 2 * std::numbers::pi * i / points;
        const double r = dice(random, 0.35, 1) * radius;
        ring.push_back({middle.x + r * std::cos(angle), middle.y + r * std::sin(angle)});
    }
    return ring;
}

// One to three blocks, each with or without a hole.
PlaneField some_field(std::mt19937_64& random) {
    PlaneField field;
    const auto blocks = 1 + random() % 3;
    for (std::size_t b = 0; b < blocks; ++b) {
        const Point middle{static_cast<double>(b) * dice(random, 450, 900), dice(random, -90, 90)};
        PlanePolygon polygon{star(random, middle, 3 + static_cast<int>(random() % 20), 200), {}};
        if (random() % 2 == 0)
            polygon.holes.push_back(star(random, middle, 5, 50));
        field.polygons.push_back(std::move(polygon));
    }
    field.area = plane_area(field.polygons);
    return field;
}

BoostPolygons in_boost(const PlaneField& field) {
    BoostPolygons out;
    const auto copy = [](const PlaneRing& from, auto& to) {
        for (const Point& p : from)
            to.push_back({p.x, p.y});
    };
    for (const PlanePolygon& polygon : field.polygons) {
        BoostPolygon& to = out.emplace_back();
        copy(polygon.outer, to.outer());
        for (const PlaneRing& hole : polygon.holes)
            copy(hole, to.inners().emplace_back());
    }
    bg::correct(out);
    return out;
}

// The strip of ground beside one pull.
BoostPolygon strip(const Pull& pull, double spacing) {
    const double length = pull.length();
    const double x = (pull.to.x - pull.from.x) / length * spacing / 2;
    const double y = (pull.to.y - pull.from.y) / length * spacing / 2;
    BoostPolygon out;
    for (const Point& p :
         {Point{pull.from.x - y, pull.from.y + x}, Point{pull.to.x - y, pull.to.y + x},
          Point{pull.to.x + y, pull.to.y - x}, Point{pull.from.x + y, pull.from.y - x}})
        out.outer().push_back({p.x, p.y});
    bg::correct(out);
    return out;
}

LayoutRequest some_request(std::mt19937_64& random) {
    LayoutRequest request;
    request.spacing = dice(random, 3, 12);
    request.heading = dice(random, 0, 180);
    request.speed = 0.7;
    request.turn_time = dice(random, 5, 60);
    if (random() % 2 == 0)
        request.row_ends = dice(random, 1, 15);
    if (random() % 3 == 0)
        request.first_offset = dice(random, 0.1, 8);
    return request;
}

double way(Point a, Point b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

} // namespace

TEST_CASE("the acres ripped are the strips clipped to the boundary, and no strip meets another") {
    std::mt19937_64 random(21);
    for (int round = 0; round < 60; ++round) {
        CAPTURE(round);
        const PlaneField field = some_field(random);
        const LayoutRequest request = some_request(random);
        const BoostPolygons ground = in_boost(field);
        if (!bg::is_valid(ground))
            continue; // a hole may reach over the edge
        const lang::Outcome<Layout> layout = lay_out(field, request);
        REQUIRE(layout);
        double ripped = 0;
        for (const Pull& pull : layout->pulls) {
            BoostPolygons piece;
            bg::intersection(ground, strip(pull, request.spacing), piece);
            ripped += bg::area(piece);
        }
        CHECK(layout->ripped_area == doctest::Approx(ripped).epsilon(1e-5));
        CHECK(layout->unripped.headland == 0);
        CHECK(layout->unripped.row_ends >= 0);
        CHECK(layout->unripped.gaps >= 0);
        CHECK(layout->ripped_area + layout->unripped.row_ends + layout->unripped.gaps ==
              doctest::Approx(bg::area(ground)).epsilon(1e-5));
        if (request.row_ends == 0)
            CHECK(layout->unripped.row_ends == 0);
    }
}

TEST_CASE("every row is driven once, the way adds up, and lifting costs no more than driving whole "
          "rows") {
    std::mt19937_64 random(22);
    for (int round = 0; round < 200; ++round) {
        CAPTURE(round);
        const PlaneField field = some_field(random);
        LayoutRequest request = some_request(random);
        const lang::Outcome<Layout> layout = lay_out(field, request);
        REQUIRE(layout);
        // Row by row over every gap, as a driver without a plan would.
        std::map<std::uint32_t, std::vector<std::pair<Point, Point>>> rows;
        const double angle = request.heading * std::numbers::pi / 180;
        const auto along = [&](Point p) { return p.x * std::sin(angle) + p.y * std::cos(angle); };
        double length = 0;
        for (const Pull& pull : layout->pulls) {
            const bool ahead = along(pull.from) < along(pull.to);
            rows[pull.row].push_back(ahead ? std::pair(pull.from, pull.to)
                                           : std::pair(pull.to, pull.from));
            length += way(pull.from, pull.to);
        }
        CHECK(rows.size() == layout->rows);
        CHECK(layout->travel == doctest::Approx(length));
        double naive = 0;
        Point at{};
        bool first = true;
        bool ahead = true;
        for (auto& [row, pulls] : rows) {
            std::sort(pulls.begin(), pulls.end(), [&](const auto& a, const auto& b) {
                return along(a.first) < along(b.first);
            });
            for (std::size_t i = 1; i < pulls.size(); ++i)
                CHECK(along(pulls[i].first) >= along(pulls[i - 1].second) - 1e-6);
            if (!ahead)
                std::reverse(pulls.begin(), pulls.end());
            for (const auto& [from, to] : pulls) {
                naive += first ? 0 : way(at, ahead ? from : to);
                at = ahead ? to : from;
                first = false;
            }
            ahead = !ahead;
        }
        const double naive_time =
            naive / request.speed + static_cast<double>(rows.size() - 1) * request.turn_time;
        CHECK(layout->turning_time + layout->between_time <= naive_time * (1 + 1e-9));
        CHECK(layout->lifts + layout->turns + 1 == layout->pulls.size());
    }
}

TEST_CASE("two blocks a mile apart are ripped one after the other") {
    // Forty acres each, a quarter mile square: rows east and west would cross the mile 173 times.
    const double side = 402.336;
    PlaneField field;
    for (const double x : {0.0, 1609.344 + side})
        field.polygons.push_back({{{x, 0}, {x + side, 0}, {x + side, side}, {x, side}}, {}});
    field.area = plane_area(field.polygons);
    LayoutRequest request;
    request.spacing = 2.3256; // 173 rows
    request.heading = 90;
    request.speed = 0.67056; // 1.5 mi/h
    request.turn_time = 42;
    const lang::Outcome<Layout> layout = lay_out(field, request);
    REQUIRE(layout);
    CHECK(layout->rows == 173);
    CHECK(layout->cells == 2);
    CHECK(layout->turns == 345);
    CHECK(layout->lifts == 0);
    // 173 rows are odd, so the first block is left at its far corner, along the mile.
    CHECK(layout->between_time * request.speed == doctest::Approx(1609.344));
    CHECK(layout->time() / 3600 ==
          doctest::Approx((2 * 173 * side + 1609.344 + 2 * 172 * request.spacing) / request.speed /
                              3600 +
                          345 * 42 / 3600.0));
}

TEST_CASE("up to six cells are chained by the shortest way of all") {
    std::mt19937_64 random(23);
    for (int round = 0; round < 40; ++round) {
        const std::size_t count = 2 + random() % 3;
        std::vector<CellEnds> cells(count);
        for (CellEnds& cell : cells)
            for (Way& one : cell)
                one = {{dice(random, 0, 100), dice(random, 0, 100)},
                       {dice(random, 0, 100), dice(random, 0, 100)},
                       dice(random, 0, 50)};
        std::vector<std::size_t> order(count);
        std::iota(order.begin(), order.end(), 0);
        double shortest = 1e9;
        do {
            for (std::size_t ways = 0; ways < std::size_t{1} << (2 * count); ++ways) {
                double sum = 0;
                for (std::size_t i = 1; i < count; ++i)
                    sum += way(cells[order[i - 1]][(ways >> (2 * (i - 1))) % 4].out,
                               cells[order[i]][(ways >> (2 * i)) % 4].in);
                for (std::size_t i = 0; i < count; ++i)
                    sum += cells[order[i]][(ways >> (2 * i)) % 4].inside;
                shortest = std::min(shortest, sum);
            }
        } while (std::next_permutation(order.begin(), order.end()));
        const std::vector<CellWay> chain = chain_cells(cells);
        CHECK(way_between(cells, chain) == doctest::Approx(shortest));
        std::vector<std::size_t> driven;
        for (const CellWay& one : chain)
            driven.push_back(one.cell);
        std::sort(driven.begin(), driven.end());
        for (std::size_t i = 0; i < count; ++i)
            CHECK(driven[i] == i);
    }
}

TEST_CASE("many cells are all driven, each once") {
    std::mt19937_64 random(24);
    for (const std::size_t count : {7, 40, 399, 400, 401, 3'000}) {
        std::vector<CellEnds> cells(count);
        for (CellEnds& cell : cells)
            cell.fill({{dice(random, 0, 100), 0}, {dice(random, 0, 100), 0}, 0});
        std::vector<bool> driven(count);
        for (const CellWay& one : chain_cells(cells)) {
            CHECK_FALSE(driven[one.cell]);
            driven[one.cell] = true;
        }
        CHECK(std::count(driven.begin(), driven.end(), true) == static_cast<std::ptrdiff_t>(count));
    }
}

} // namespace ripped_area_test
