#include "engine/field/layout.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <string>

#include <doctest/doctest.h>

#include "engine/field/headings.h"
#include "tests/engine/field/plane_shapes.h"

namespace layout_test {

using namespace acre;
using namespace acre::engine;
using plane_shapes::fault_of;
using plane_shapes::laid;
using plane_shapes::plane;
using plane_shapes::rectangle;

namespace {

constexpr double foot = 0.3048;
constexpr double acre_area = 4046.8564224; // m², 43,560 ft²

bool inside(const PlanePolygon& polygon, Point p) {
    const auto odd = [&](const PlaneRing& ring) {
        bool in = false;
        for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
            if ((ring[i].y > p.y) != (ring[j].y > p.y) &&
                p.x < (ring[j].x - ring[i].x) * (p.y - ring[i].y) / (ring[j].y - ring[i].y) +
                          ring[i].x)
                in = !in;
        return in;
    };
    bool in = odd(polygon.outer);
    for (const PlaneRing& hole : polygon.holes)
        in = in != odd(hole);
    return in;
}
PlaneRing star(std::mt19937_64& random, int points, double radius) {
    // Simple by construction: angles rise, radii vary.
    PlaneRing ring;
    for (int i = 0; i < points; ++i) {
        const double angle = 2 * std::numbers::pi * i / points;
        const double r = radius * (0.35 + 0.65 * static_cast<double>(random() >> 11) * 0x1p-53);
        ring.push_back({r * std::cos(angle), r * std::sin(angle)});
    }
    return ring;
}

} // namespace

TEST_CASE("geodesic areas agree with published polygons") {
    // Documentation of the Rust port of GeographicLib, struct PolygonArea: one degree by one degree
    // at the equator.
    CHECK(geodesic_area({{0, 0}, {0, 1}, {1, 1}, {1, 0}}) ==
          doctest::Approx(12308778361.469452).epsilon(1e-14));
    // Closed form of the ellipsoid of revolution for a small cell between parallels (authalic
    // integral): b²/2 · Δλ · [sin φ / (1 − e² sin² φ) + artanh(e sin φ)/e].
    const double a = 6378137;
    const double f = 1 / 298.257223563;
    const double b = a * (1 - f);
    const double e = std::sqrt(f * (2 - f));
    const auto zone = [&](double degrees) {
        const double s = std::sin(degrees * std::numbers::pi / 180);
        return s / (1 - e * e * s * s) + std::atanh(e * s) / e;
    };
    const double cell = b * b / 2 * (0.01 * std::numbers::pi / 180) * (zone(36.61) - zone(36.6));
    CHECK(geodesic_area({{-119.7, 36.6}, {-119.69, 36.6}, {-119.69, 36.61}, {-119.7, 36.61}}) ==
          doctest::Approx(cell).epsilon(1e-8));
}

TEST_CASE("laying flat keeps area and comes back to the same place") {
    lang::SourceMap sources;
    const lang::FileId file = sources.add("f", "x");
    lang::Diagnostics diagnostics;
    const Boundary boundary{
        "", {{{{-119.7, 36.6}, {-119.69, 36.6}, {-119.69, 36.61}, {-119.7, 36.61}}, {}}}, {}, {}};
    const std::optional<PlaneField> field = lay_flat(boundary, sources, file, diagnostics);
    REQUIRE(field);
    CHECK(plane_area(field->polygons) == doctest::Approx(field->area).epsilon(1e-7));
    const LonLat back = to_globe(*field, field->polygons[0].outer[2]);
    CHECK(back.lon == doctest::Approx(-119.69).epsilon(1e-12));
    CHECK(back.lat == doctest::Approx(36.61).epsilon(1e-12));
}

TEST_CASE("a boundary that crosses itself, or a hole outside, is refused") {
    lang::SourceMap sources;
    const lang::FileId file = sources.add("f", "x");
    const auto code_of = [&](const Boundary& boundary) {
        lang::Diagnostics diagnostics;
        CHECK(!lay_flat(boundary, sources, file, diagnostics));
        return diagnostics.all().empty() ? std::string()
                                         : std::string(lang::name_of(diagnostics.all()[0].code));
    };
    CHECK(code_of({"", {{{{0, 36}, {0.01, 36.01}, {0.01, 36}, {0, 36.01}}, {}}}, {}, {}}) ==
          "B904");
    const LonLatRing square = {{0, 36}, {0.01, 36}, {0.01, 36.01}, {0, 36.01}};
    CHECK(code_of({"", {{square, {{{0.02, 36}, {0.02, 36.001}, {0.021, 36.001}}}}}, {}, {}}) ==
          "B908");
    CHECK(code_of({"", {{square, {}}, {square, {}}}, {}, {}}) == "B908");
    CHECK(code_of({"", {{{{0, 36}, {2, 36}, {2, 37}, {0, 37}}, {}}}, {}, {}}) == "B906");
}

TEST_CASE("a rectangle is laid out as by hand") {
    // 1,270 ft runs, 1,320 ft wide, 8 ft apart, north and south: 165 pulls of 1,270 ft.
    const PlaneField field = plane({{rectangle(0, 0, 1320 * foot, 1270 * foot), {}}});
    LayoutRequest request;
    request.spacing = 8 * foot;
    request.heading = 0;
    request.speed = 132 * foot / 60; // 1.5 mi/h is 132 ft a minute
    request.turn_time = 30;
    const Layout layout = laid(field, request);
    CHECK(layout.pulls.size() == 165);
    CHECK(layout.rows == 165);
    CHECK(layout.turns == 164);
    CHECK(layout.lifts == 0);
    CHECK(layout.point_rows == 0);
    CHECK(layout.mean == doctest::Approx(1270 * foot));
    CHECK(layout.shortest == doctest::Approx(layout.longest));
    CHECK(layout.travel * request.spacing == doctest::Approx(field.area));
    CHECK(layout.ripping_time == doctest::Approx(165 * 1270.0 / 132 * 60));
    CHECK(layout.turning_time == doctest::Approx(164 * 30 + 164 * 8.0 / 132 * 60));
    CHECK(layout.between == doctest::Approx(164 * 8 * foot));
    // East and west the same field has 1,270 / 8 = 158.75 lines: 158 or 159.
    request.heading = 90;
    CHECK(laid(field, request).pulls.size() == 159);
    request.heading = 270;
    CHECK(laid(field, request).pulls.size() == 159);
}

TEST_CASE("rows of a square acre follow the trade's table") {
    // Row feet an acre = 43,560 / row width: 22 ft 1,980; 20 ft 2,178; 21 ft 2,074 (arithmetic on
    // the size of the acre).
    for (const auto& [width, feet] : {std::pair{22.0, 1980.0}, {20.0, 2178.0}, {21.0, 2074.3}}) {
        const double side = 40 * width * foot; // a whole number of rows
        const PlaneField field = plane({{rectangle(0, 0, side, side), {}}});
        LayoutRequest request;
        request.spacing = width * foot;
        const Layout layout = laid(field, request);
        CHECK(layout.rows == 40);
        CHECK(layout.travel / foot / (field.area / acre_area) ==
              doctest::Approx(feet).epsilon(1e-4));
    }
}

TEST_CASE("row ends shorten every pull, a headland shrinks the field") {
    const PlaneField field = plane({{rectangle(0, 0, 200, 400), {}}});
    LayoutRequest request;
    request.spacing = 5;
    request.row_ends = 35 * foot;
    // 35 ft at each end of a 1,320 ft row leaves 94.7 % of it (arithmetic).
    Layout layout = laid(field, request);
    CHECK(layout.mean == doctest::Approx(400 - 70 * foot));
    // What stays at the ends of the rows is not billed: 35 ft twice, 200 m wide.
    CHECK(layout.unripped.row_ends == doctest::Approx(200 * 70 * foot));
    CHECK(layout.ripped_area == doctest::Approx(200 * (400 - 70 * foot)));
    request.row_ends = 0;
    request.headland = 10;
    layout = laid(field, request);
    CHECK(layout.ripped_area == doctest::Approx(180.0 * 380).epsilon(1e-5));
    CHECK(layout.unripped.headland == doctest::Approx(200.0 * 400 - 180 * 380).epsilon(1e-5));
    CHECK(layout.rows == 36);
    CHECK(layout.mean == doctest::Approx(380).epsilon(1e-5));
}

TEST_CASE("a hole is crossed where that takes less time than a turn") {
    PlanePolygon polygon{rectangle(0, 0, 100, 100), {rectangle(40, 40, 20, 20)}};
    const PlaneField field = plane({polygon});
    CHECK(field.area == doctest::Approx(9600));
    LayoutRequest request;
    request.spacing = 4;
    request.speed = 0.7;
    request.turn_time = 40; // 28 m at that speed; the hole is 20 m wide
    Layout layout = laid(field, request);
    CHECK(layout.rows == 25);
    CHECK(layout.lifts == 5);
    CHECK(layout.cells == 1);
    CHECK(layout.pulls.size() == 30);
    CHECK(layout.travel * 4 == doctest::Approx(9600));
    CHECK(layout.turns == 24);
    request.turn_time = 5; // 3.5 m: gone round, ten rows, five on each side, ten
    layout = laid(field, request);
    CHECK(layout.lifts == 0);
    CHECK(layout.cells == 4);
    CHECK(layout.turns == 29);
    CHECK(layout.pulls.size() == 30);
}

TEST_CASE("a circle is covered as its closed form says") {
    PlaneRing ring;
    for (int i = 0; i < 720; ++i)
        ring.push_back({400 * std::cos(i * std::numbers::pi / 360),
                        400 * std::sin(i * std::numbers::pi / 360)});
    const PlaneField field = plane({{ring, {}}});
    LayoutRequest request;
    request.spacing = 2;
    request.heading = 17;
    const Layout layout = laid(field, request);
    CHECK(layout.travel * 2 == doctest::Approx(std::numbers::pi * 400 * 400).epsilon(1e-3));
    CHECK(layout.mean ==
          doctest::Approx(std::numbers::pi * 400 / 2).epsilon(1e-3)); // mean chord of a circle
    CHECK(layout.longest == doctest::Approx(800).epsilon(1e-3));
}

TEST_CASE("a triangle has point rows, a rectangle driven along has none") {
    const PlaneField field = plane({{{{0, 0}, {300, 0}, {300, 100}}, {}}});
    LayoutRequest request;
    request.spacing = 5;
    request.heading = 90;
    const Layout layout = laid(field, request);
    // Lengths fall evenly from 300 to 0 m: those below half of the mean of 150 m are a quarter.
    CHECK(layout.pulls.size() == 20);
    CHECK(layout.point_rows == 5);
}

TEST_CASE("no pull leaves the field and the width covered is within a spacing of the area") {
    std::mt19937_64 random(7);
    for (int round = 0; round < 300; ++round) {
        CAPTURE(round);
        PlanePolygon polygon{star(random, 3 + static_cast<int>(random() % 40), 300), {}};
        if (round % 3 == 0)
            polygon.holes.push_back(star(random, 7, 60));
        const PlaneField field = plane({polygon});
        LayoutRequest request;
        request.spacing = 1 + static_cast<double>(random() % 8);
        request.heading = static_cast<double>(random() % 3600) / 10;
        const Layout layout = laid(field, request);
        double perimeter = 0;
        for (const PlaneRing* ring :
             {&polygon.outer, polygon.holes.empty() ? &polygon.outer : &polygon.holes[0]})
            for (std::size_t i = 0; i < ring->size(); ++i) {
                const Point a = (*ring)[i];
                const Point b = (*ring)[(i + 1) % ring->size()];
                perimeter += std::hypot(a.x - b.x, a.y - b.y);
            }
        CHECK(std::abs(layout.travel * request.spacing - field.area) <
              request.spacing * perimeter / 2);
        for (const Pull& pull : layout.pulls)
            for (const double t : {0.001, 0.25, 0.5, 0.75, 0.999})
                CHECK(inside(polygon, {pull.from.x + t * (pull.to.x - pull.from.x),
                                       pull.from.y + t * (pull.to.y - pull.from.y)}));
    }
}

TEST_CASE("without a speed a layout has lengths and no times") {
    const PlaneField field =
        plane({{rectangle(0, 0, 100, 80), {}}, {rectangle(200, 0, 100, 80), {}, 1}});
    LayoutRequest request;
    request.spacing = 2;
    request.turn_time = 40;
    const Layout still = laid(field, request);
    CHECK(still.turns == 99);
    CHECK(still.travel == doctest::Approx(100 * 80));
    CHECK(still.between > 0);
    CHECK(still.time() == 0);
    CHECK(still.blocks[0].ripping_time == 0);
    CHECK(still.blocks[0].turning_time == 0);
    request.speed = 0.5; // m/s
    const Layout driven = laid(field, request);
    CHECK(driven.ripping_time == doctest::Approx(100 * 80 / 0.5));
    CHECK(driven.turning_time + driven.between_time ==
          doctest::Approx(driven.between / 0.5 + 99 * 40));
    CHECK(driven.blocks[1].ripping_time == doctest::Approx(50 * 80 / 0.5));
}

TEST_CASE("the best heading runs along the long side") {
    const PlaneField field = plane({{rectangle(0, 0, 100, 800), {}}});
    LayoutRequest request;
    request.spacing = 3;
    request.speed = 0.7;
    request.turn_time = 40;
    const lang::Outcome<std::vector<HeadingTime>> ranked =
        rank_headings(field, field.polygons, request);
    REQUIRE(ranked);
    REQUIRE(ranked->size() >= 180);
    CHECK(std::min(ranked->front().heading, 180 - ranked->front().heading) < 1e-9);
    CHECK(ranked->back().time > ranked->front().time);
}

TEST_CASE("what cannot be laid out says why") {
    const PlaneField field = plane({{rectangle(0, 0, 30, 100), {}}});
    LayoutRequest request;
    CHECK(fault_of(field, request) == "B910 pulls 0 ft apart cannot be laid out");
    request.spacing = std::nan("");
    CHECK(fault_of(field, request) == "B910 pulls no answer ft apart cannot be laid out");
    request.spacing = 70; // first pull 35 m in: past a field 30 m wide
    CHECK(fault_of(field, request) == "B909 no pull fits the field at 229.7 ft apart");
    request.spacing = 5;
    request.headland = 20;
    CHECK(fault_of(field, request) == "B909 a headland of 65.62 ft leaves nothing of the field");
    request.headland = 0;
    request.row_ends = 60;
    CHECK(fault_of(field, request) == "B909 no pull fits the field at 16.4 ft apart");
    request.row_ends = 0;
    request.spacing = 0.01;
    CHECK(laid(field, request).rows == 3000);
    const PlaneField wide = plane({{rectangle(0, 0, 3000, 100), {}}});
    CHECK(fault_of(wide, request) == "B910 more than 200,000 pulls");
}

TEST_CASE("a field of teeth is refused before its cuts are kept: rows by teeth would be more than "
          "memory") {
    // 4,000 teeth a mile long, 0.1 m apart: 160,000 rows of 8,000 cuts would be 1.3e9 of them.
    PlaneRing saw;
    for (int i = 0; i < 4000; ++i) {
        saw.push_back({i * 0.1, 0});
        saw.push_back({i * 0.1 + 0.05, 1600});
    }
    saw.push_back({400, -1});
    saw.push_back({0, -1});
    LayoutRequest request;
    request.spacing = 0.01;
    request.heading = 90;
    CHECK(fault_of(plane({{saw, {}}}), request) == "B910 more than 200,000 pulls");
}

} // namespace layout_test
