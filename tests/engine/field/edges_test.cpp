// Layouts at their edges: one row, blocks on one line, fences of a few millimetres, headlands of
// boundaries with thousands of points. Worked out by hand.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <string>

#include <doctest/doctest.h>

#include "engine/field/clipping.h"
#include "engine/field/fences.h"
#include "engine/field/headings.h"
#include "engine/field/inset.h"
#include "engine/field/layout.h"
#include "tests/engine/field/plane_shapes.h"

namespace edges_test {

using namespace acre;
using namespace acre::engine;
using plane_shapes::laid;
using plane_shapes::plane;
using plane_shapes::rectangle;

namespace {

PlaneRing circle(std::size_t points, double radius, double teeth = 0) {
    PlaneRing ring;
    for (std::size_t i = 0; i < points; ++i) {
        const double angle =
            2 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(points);
        const double r = radius + (i % 2 == 0 ? teeth : 0);
        ring.push_back({r * std::cos(angle), r * std::sin(angle)});
    }
    return ring;
}
// Teeth a metre wide and 100 m high, two metres from one to the next, no two of them alike; on a
// foot of ten metres.
PlaneRing comb(std::size_t teeth) {
    PlaneRing ring = {{0, -10}, {2.0 * static_cast<double>(teeth) - 1, -10}};
    for (std::size_t i = teeth; i-- > 0;) {
        const double x = 2.0 * static_cast<double>(i);
        const double high = 100 + 1e-4 * static_cast<double>(i * 7919 % teeth);
        const double low = 1e-4 * static_cast<double>(i * 104'729 % teeth);
        ring.insert(ring.end(), {{x + 1, low}, {x + 1, high}, {x, high}, {x, low}});
    }
    return ring;
}
PlaneRing lying(PlaneRing ring) {
    for (Point& p : ring)
        p = {-p.y, p.x};
    return ring;
}

} // namespace

TEST_CASE("a field as wide as a row has one, and an edge at 45 degrees makes no point row") {
    LayoutRequest request;
    request.spacing = 5;
    for (const double width : {2.6, 5.0, 7.4})
        CHECK(laid(plane({{rectangle(0, 0, width, 100), {}}}), request).pulls.size() == 1);
    request.heading = 90;
    // A pull is 2.5 m, 7.5 m, … long; half the mean of 150 m is not reached by fifteen of sixty.
    CHECK(laid(plane({{{{0, 0}, {300, 0}, {300, 300}}, {}}}), request).point_rows == 0);
    CHECK(laid(plane({{{{0, 0}, {300.1, 0}, {300.1, 300}}, {}}}), request).point_rows == 15);
}

TEST_CASE("blocks on one line are driven each by itself, whichever comes first") {
    LayoutRequest request;
    request.spacing = 5;
    request.heading = 90;
    for (const bool turned : {false, true}) {
        const std::uint32_t west = turned ? 1 : 0;
        const Layout layout = laid(plane({{rectangle(0, 0, 100, 50), {}, west},
                                          {rectangle(300, 0, 200, 50), {}, 1 - west}}),
                                   request);
        CHECK(layout.cells == 2);
        CHECK(layout.pulls.size() == 20);
        CHECK(layout.rows == 10);
        CHECK(layout.blocks[west].travel == doctest::Approx(10 * 100));
        CHECK(layout.blocks[1 - west].travel == doctest::Approx(10 * 200));
        CHECK(layout.doubled_area == doctest::Approx(0));
    }
}

TEST_CASE("a block that no pull fits has ground, none of it ripped") {
    LayoutRequest request;
    request.spacing = 5;
    request.row_ends = 2;
    const Layout layout = laid(
        plane({{rectangle(0, 0, 100, 50), {}, 0}, {rectangle(200, 0, 100, 3), {}, 1}}), request);
    REQUIRE(layout.blocks.size() == 2);
    CHECK(layout.blocks[1].pulls == 0);
    CHECK(layout.blocks[1].ground == doctest::Approx(300));
    CHECK(layout.blocks[1].ripped_area == 0);
    CHECK(layout.blocks[1].unripped.row_ends == doctest::Approx(300)); // all of it
    CHECK(layout.blocks[0].ripped_area == doctest::Approx(100 * 46));
}

TEST_CASE("where the next row is too near by a little, the one after it is driven") {
    LayoutRequest request;
    request.spacing = 5;
    request.turn_diameter = 9;
    const Layout layout = laid(plane({{rectangle(0, 0, 100, 100), {}}}), request);
    CHECK(layout.skip == 2);
    CHECK(layout.loops == 0);
    for (std::size_t i = 1; i < layout.pulls.size(); ++i)
        CHECK(std::abs(static_cast<int>(layout.pulls[i].row) -
                       static_cast<int>(layout.pulls[i - 1].row)) >= 2);
}

TEST_CASE("every degree and the eight longest edges are tried, and no heading without a speed") {
    const auto ranked = [](const PlaneField& field, double speed) {
        LayoutRequest request;
        request.spacing = 3;
        request.speed = speed;
        request.turn_time = 40;
        lang::Outcome<std::vector<HeadingTime>> found =
            rank_headings(field, field.polygons, request);
        REQUIRE(found);
        return *found;
    };
    // 100 m by 800 m, its long side 30.3 degrees east of north.
    const double turn = 30.3 * std::numbers::pi / 180;
    PlaneRing ring = rectangle(0, 0, 100, 800);
    for (Point& p : ring)
        p = {p.x * std::cos(turn) + p.y * std::sin(turn),
             p.y * std::cos(turn) - p.x * std::sin(turn)};
    const PlaneField field = plane({{ring, {}}});
    CHECK(ranked(field, 0.7).size() == 184);
    CHECK(ranked(field, 0.7).front().heading == doctest::Approx(30.3));
    CHECK(ranked(field, 0).empty());
    CHECK(ranked(plane({{circle(12, 100), {}}}), 0.7).size() == 188);
}

TEST_CASE("rows that are cut into more pulls than are laid out are refused") {
    // 110,000 rows, each cut in two by a hole from side to side but for a millimetre.
    LayoutRequest request;
    request.spacing = 0.01;
    const lang::Outcome<Layout> layout = lay_out(
        plane({{rectangle(0, 0, 1100, 100), {rectangle(0.001, 40, 1099.998, 20)}}}), request);
    CHECK(!layout);
    CHECK(layout.said.diagnostics.all().at(0).title == "more than 200,000 pulls");
}

TEST_CASE("a strip along a fence is as wide as its area by half its edge") {
    CHECK(widest_strip({}) == 0);
    CHECK(points_of({}) == 0);
    // 0.2 m by 300 m: 60 m² by 300.2 m; the wider of two counts.
    const PlanePolygon strip{rectangle(0, 0, 0.2, 300), {}};
    const PlanePolygon wide{rectangle(9, 0, 3, 30), {rectangle(10, 10, 1, 10)}};
    CHECK(widest_strip({strip}) == doctest::Approx(60 / 300.2));
    CHECK(widest_strip({strip, wide}) == doctest::Approx((90.0 - 10) / 33));
    CHECK(widest_strip({wide, strip}) == doctest::Approx((90.0 - 10) / 33));
    CHECK(points_of({strip, wide}) == 12);
    // The later block loses what both have: 0.2 m of its width.
    std::vector<PlanePolygon> blocks = {{rectangle(0, 0, 100, 300), {}, 0},
                                        {rectangle(99.8, 0, 50, 300), {}, 1}};
    const Fences fences = part_blocks(blocks);
    CHECK(fences.given == doctest::Approx(60));
    REQUIRE(blocks.size() == 2);
    CHECK(plane_area({blocks[0]}) == doctest::Approx(100 * 300));
    CHECK(plane_area({blocks[1]}) == doctest::Approx(49.8 * 300));
}

TEST_CASE("a headland of a boundary with thousands of points is that of the shape they draw") {
    const auto left = [](const PlaneRing& ring, double distance) {
        const auto inside = inset({{ring, {}, 3}}, distance);
        REQUIRE(inside);
        for (const PlanePolygon& one : *inside)
            CHECK(one.block == 3);
        return *inside;
    };
    const double pi = std::numbers::pi;
    for (const std::size_t points : {1'000U, 3'000U})
        CHECK(plane_area(left(circle(points, 200), 10)) ==
              doctest::Approx(pi * 190 * 190).epsilon(2e-4));
    // By 0.3 m from every edge, square at the corners: 600 teeth 0.4 m wide and 100 m high on a
    // foot whose upper edge lies at 3 cm in the mean.
    const double teeth = 600 * 0.4 * 100 + 1198.4 * (10.03 - 0.6);
    for (const bool lies : {false, true}) {
        const auto inside = left(lies ? lying(comb(600)) : comb(600), 0.3);
        REQUIRE(inside.size() == 1);
        CHECK(plane_area(inside) == doctest::Approx(teeth).epsilon(2e-4));
        // It lies where it lay.
        double low = 0, high = 0;
        for (const Point& p : inside[0].outer) {
            low = std::min(low, lies ? p.x : p.y);
            high = std::max(high, lies ? p.x : p.y);
        }
        CHECK(low == doctest::Approx(lies ? -99.76 : -9.7).epsilon(2e-3));
        CHECK(high == doctest::Approx(lies ? 9.7 : 99.76).epsilon(2e-3));
    }
    // By 0.6 m the teeth are gone.
    CHECK(plane_area(left(comb(600), 0.6)) == doctest::Approx(1197.8 * 8.83).epsilon(2e-4));
}

TEST_CASE("a headland that takes too long is refused") {
    // 35,000² / 8 steps of a sweep, more than 150 million.
    CHECK(!inset({{circle(35'000, 5'000, 0.5), {}}}, 5));
    // 170 blocks of 1,902 points: points² / 8, and 950 long edges across half of their heights
    // each.
    std::vector<PlanePolygon> combs;
    for (std::uint32_t block = 0; block < 170; ++block)
        combs.push_back({comb(475), {}, block});
    CHECK(!inset(combs, 0.3));
    combs.resize(2);
    CHECK(inset(combs, 0.3));
}

TEST_CASE("what crosses itself is told with its place, a hole as a hole, and what is too ragged") {
    lang::SourceMap sources;
    const lang::FileId file = sources.add("f", "x");
    const auto fault = [&](const LonLatRing& outer, std::vector<LonLatRing> holes = {}) {
        lang::Diagnostics diagnostics;
        CHECK(!lay_flat({"", {{outer, std::move(holes)}}, {}, {}}, sources, file, diagnostics));
        REQUIRE(diagnostics.all().size() == 1);
        return diagnostics.all()[0];
    };
    const lang::Diagnostic bow = fault({{0, 36}, {0.01, 36}, {0.002, 36.01}, {0.008, 36.01}});
    CHECK(bow.title == "the boundary crosses or touches itself");
    REQUIRE(bow.notes.size() == 1);
    double lon = 0, lat = 0; // 0.01 - 0.008 t = 0.008 t: five eighths of the way up
    REQUIRE(std::sscanf(bow.notes[0].c_str(), "near longitude %lf, latitude %lf", &lon, &lat) == 2);
    CHECK(lon == doctest::Approx(0.005).epsilon(1e-3));
    CHECK(lat == doctest::Approx(36.00625).epsilon(1e-7));
    const LonLatRing square = {{0, 36}, {0.01, 36}, {0.01, 36.01}, {0, 36.01}};
    CHECK(fault(square, {{{0.002, 36.002}, {0.004, 36.004}, {0.004, 36.002}, {0.002, 36.004}}})
              .title == "a hole of the boundary crosses or touches itself");
    // 6,400 edges from corner to corner: 20.5 million pairs of them.
    LonLatRing zigzag;
    for (int i = 0; i < 3200; ++i) {
        zigzag.push_back({1e-9 * i, 36 + 1e-9 * i});
        zigzag.push_back({0.01 + 1e-9 * i, 36.01 + 1e-9 * i});
    }
    CHECK(fault(zigzag).title == "the boundary is too ragged to check");
}

} // namespace edges_test
