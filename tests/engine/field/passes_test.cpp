// Turns, passes and blocks of rectangles, worked out by hand.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "tests/engine/field/plane_shapes.h"

namespace passes_test {

using namespace acre;
using namespace acre::engine;
using plane_shapes::fault_of;
using plane_shapes::laid;
using plane_shapes::plane;
using plane_shapes::rectangle;

namespace {} // namespace

TEST_CASE("a machine that turns wide skips rows and still drives each once") {
    const PlaneField field = plane({{rectangle(0, 0, 105, 100), {}}});
    LayoutRequest request;
    request.spacing = 5;
    request.turn_diameter = 14;
    const Layout layout = laid(field, request);
    CHECK(layout.skip == 3);
    std::vector<int> driven(21);
    for (const Pull& pull : layout.pulls)
        ++driven[pull.row];
    for (const int times : driven)
        CHECK(times == 1);
    // 15 m apart at least: three rows over or more, so none needs a loop.
    for (std::size_t i = 1; i < layout.pulls.size(); ++i)
        CHECK(std::abs(static_cast<int>(layout.pulls[i].row) -
                       static_cast<int>(layout.pulls[i - 1].row)) >= 3);
    CHECK(layout.loops == 0);
    // Two quarter circles and what is left of the width, twenty times; three lands of seven rows
    // by turns four over and three back, and four over to the next land.
    CHECK(layout.between ==
          doctest::Approx(20 * 7 * std::numbers::pi + 9 * (15 - 14) + 11 * (20 - 14)));
}

TEST_CASE("a piece too narrow to skip rows is driven in loops") {
    const PlaneField field = plane({{rectangle(0, 0, 15, 100), {}}});
    LayoutRequest request;
    request.spacing = 5;
    request.turn_diameter = 14;
    const Layout layout = laid(field, request);
    CHECK(layout.pulls.size() == 3);
    CHECK(layout.loops == 2);
    // Either order has a loop of 5 m or of 10 m: first, third, second has one of each, the next row
    // two of 5 m. r (pi + 4 acos((d + 2 r) / (4 r))).
    const auto loop = [](double d) {
        return 7 * (std::numbers::pi + 4 * std::acos((d + 14) / 28));
    };
    CHECK(layout.between == doctest::Approx(loop(5) + loop(10)));
}

TEST_CASE("passes of a row lie beside each other and rip it once") {
    const PlaneField field = plane({{rectangle(0, 0, 60, 100), {}}});
    LayoutRequest request;
    request.spacing = 6;
    request.passes_per_row = 2;
    Layout layout = laid(field, request);
    CHECK(layout.rows == 10);
    CHECK(layout.pulls.size() == 20);
    CHECK(layout.turns == 19);
    CHECK(layout.travel == doctest::Approx(2000));
    CHECK(layout.ripped_area == doctest::Approx(6000));
    std::vector<double> across;
    for (const Pull& pull : layout.pulls)
        across.push_back(pull.from.x);
    std::sort(across.begin(), across.end());
    for (std::size_t i = 0; i < across.size(); ++i)
        CHECK(across[i] == doctest::Approx(1.5 + 3 * static_cast<double>(i)));
    request.pass_spacing = 1;
    layout = laid(field, request);
    CHECK(layout.travel == doctest::Approx(2000));
    CHECK(layout.ripped_area == doctest::Approx(6000));
    across.clear();
    for (const Pull& pull : layout.pulls)
        across.push_back(pull.from.x);
    std::sort(across.begin(), across.end());
    for (std::size_t i = 0; i < across.size(); ++i)
        CHECK(across[i] == doctest::Approx((i % 2 == 0 ? 2.5 : 3.5) +
                                           6 * std::floor(static_cast<double>(i) / 2)));
    request.pass_spacing = 0;
    request.passes_per_row = 1.5;
    CHECK(laid(field, request).pulls.size() == 15);
    request.passes_per_row = 3;
    request.pass_spacing = 3;
    CHECK(fault_of(field, request) == "B910 pulls 19.69 ft apart cannot be laid out");
}

TEST_CASE("no pull goes from one block into the next, even where they share a fence") {
    PlaneField field =
        plane({{rectangle(0, 0, 60, 100), {}, 0}, {rectangle(0, 100, 60, 50), {}, 1}});
    LayoutRequest request;
    request.spacing = 6;
    request.speed = 0.7;
    request.turn_time = 40;
    Layout layout = laid(field, request);
    CHECK(layout.pulls.size() == 20);
    CHECK(layout.cells == 2);
    CHECK(layout.lifts == 0);
    REQUIRE(layout.blocks.size() == 2);
    CHECK(layout.blocks[0].ripped_area == doctest::Approx(6000));
    CHECK(layout.blocks[1].ripped_area == doctest::Approx(3000));
    CHECK(layout.blocks[1].travel == doctest::Approx(500));
    CHECK(layout.blocks[1].turns == 9);
    CHECK(layout.blocks[1].turning_time == doctest::Approx(9 * (40 + 6 / 0.7)));
    field.polygons[1].block = 0; // one block of two pieces: nothing stands between them
    layout = laid(field, request);
    CHECK(layout.cells == 1);
    CHECK(layout.lifts == 10);
}

} // namespace passes_test
