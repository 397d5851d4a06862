// The figures of a field that is laid out, against figures worked out by hand.
#include "engine/questions/field.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

namespace field_test {

using namespace acre;
using namespace acre::engine;

namespace {

// About a quarter mile square at 36.6 degrees north: 0.0045 degrees of longitude are 402.5 m,
// 0.0036 of latitude 399.5 m.
std::string square(const std::string& more = "") {
    return R"({"type": "Feature", "properties": {"name": "North forty"}, "geometry": {"type":
"Polygon", "coordinates": [[[-119.7, 36.6], [-119.6955, 36.6], [-119.6955, 36.6036],
[-119.7, 36.6036], [-119.7, 36.6]])" +
           more + "]}}";
}
FieldQuestion question(const std::string& text) {
    FieldQuestion out;
    out.boundaries = {{"square.geojson", text, {}}};
    out.request.spacing = 10;
    out.request.speed = 1;
    out.request.turn_time = 30;
    out.heading = 0;
    return out;
}

} // namespace

TEST_CASE("acres, pulls, times and pace of a square agree with each other") {
    const lang::Outcome<FieldAnswer> field = ask(question(square()));
    REQUIRE(field);
    CHECK(field->called() == "North forty");
    CHECK(field->gross == doctest::Approx(402.5 * 399.5 / 4046.856).epsilon(0.003));
    // Forty strips of 10 m leave 2.5 m of the width.
    CHECK(field->net == doctest::Approx(400 * 399.5 / 4046.856).epsilon(0.003));
    CHECK(field->unripped_gaps == doctest::Approx(field->gross - field->net));
    CHECK(field->holes == doctest::Approx(0));
    CHECK(field->pulls.size() == 40);
    CHECK(field->turns == 39);
    CHECK(field->mean == doctest::Approx(399.5 / 0.3048).epsilon(0.003));
    CHECK(field->travel == doctest::Approx(40 * field->mean / 5280));
    CHECK(field->travel_per_acre == doctest::Approx(40 * field->mean / field->net));
    REQUIRE(field->ripping);
    CHECK(*field->ripping == doctest::Approx(field->travel * 1609.344 / 3600));
    CHECK(*field->turning == doctest::Approx(field->moving * 1609.344 / 3600 + 39 * 30.0 / 3600));
    CHECK(*field->between == 0);
    CHECK(field->cells == 1);
    CHECK(*field->pace == doctest::Approx(field->net / (*field->ripping + *field->turning)));
    CHECK(field->headings.empty());
    // Driven back and forth: the second pull begins where the first ends.
    CHECK(field->pulls[0].row == 1);
    CHECK(std::abs(field->pulls[0].to_place.lat - field->pulls[1].from_place.lat) < 1e-6);
    CHECK(std::abs(field->pulls[0].from_place.lat - 36.6) < 1e-5);
}

TEST_CASE("what is left along the edges and at the ends of the rows is told by itself") {
    const double acre = 4046.856, whole = 402.5 * 399.5;
    FieldQuestion edges = question(square());
    edges.request.headland = 20;
    const lang::Outcome<FieldAnswer> headland = ask(edges);
    REQUIRE(headland);
    CHECK(headland->edge == doctest::Approx(2 * (402.5 + 399.5) / 0.3048).epsilon(0.003));
    CHECK(headland->headland == doctest::Approx(20 / 0.3048));
    CHECK(headland->unripped_headland ==
          doctest::Approx((whole - 362.5 * 359.5) / acre).epsilon(0.003));
    CHECK(headland->unripped_row_ends == 0);
    FieldQuestion ends = question(square());
    ends.request.row_ends = 15;
    const lang::Outcome<FieldAnswer> rows = ask(ends);
    REQUIRE(rows);
    CHECK(rows->row_ends == doctest::Approx(15 / 0.3048));
    CHECK(rows->unripped_row_ends == doctest::Approx(40 * 10 * 2 * 15 / acre).epsilon(0.003));
    CHECK(rows->unripped_headland == 0);
    FieldQuestion both = question(square(R"(, [[-119.699, 36.601], [-119.699, 36.602], [-119.698,
36.602], [-119.698, 36.601], [-119.699, 36.601]])"));
    both.request.headland = 20;
    both.request.row_ends = 15;
    const lang::Outcome<FieldAnswer> all = ask(both);
    REQUIRE(all);
    CHECK(all->net - all->doubled + all->unripped_headland + all->unripped_row_ends +
              all->unripped_gaps ==
          doctest::Approx(all->gross - all->holes));
    // One block is all of the field.
    REQUIRE(all->blocks.size() == 1);
    const FieldBlock& block = all->blocks[0];
    CHECK(block.gross == doctest::Approx(all->gross));
    CHECK(block.holes == doctest::Approx(all->holes));
    CHECK(block.net == doctest::Approx(all->net));
    CHECK(block.unripped_headland == doctest::Approx(all->unripped_headland));
    CHECK(block.unripped_row_ends == doctest::Approx(all->unripped_row_ends));
    CHECK(block.unripped_gaps == doctest::Approx(all->unripped_gaps));
    CHECK(block.travel == doctest::Approx(all->travel));
    CHECK(block.mean == doctest::Approx(all->mean));
    CHECK(block.pulls == all->pulls.size());
}

TEST_CASE("without a heading the fastest is taken and the others tell what they lose") {
    FieldQuestion best = question(square());
    best.heading.reset();
    const lang::Outcome<FieldAnswer> field = ask(best);
    REQUIRE(field);
    REQUIRE(field->headings.size() >= 180);
    CHECK(field->heading == field->headings.front().heading);
    CHECK(field->headings.front().loss == 0);
    for (const FieldHeading& one : field->headings)
        CHECK(one.loss == doctest::Approx(one.hours / field->headings.front().hours - 1));
}

TEST_CASE("a hole is left out; without a speed there are no times") {
    FieldQuestion holed = question(square(R"(, [[-119.699, 36.601], [-119.699, 36.602], [-119.698,
36.602], [-119.698, 36.601], [-119.699, 36.601]])"));
    holed.request.speed = 0;
    const lang::Outcome<FieldAnswer> field = ask(holed);
    REQUIRE(field);
    CHECK(field->holes > 2);
    CHECK(field->net + field->unripped_gaps == doctest::Approx(field->gross - field->holes));
    CHECK(field->unripped_gaps < 0.01 * field->net);
    CHECK_FALSE(field->ripping);
    CHECK_FALSE(field->pace);
}

TEST_CASE("blocks are numbered as they are driven, and one that no pull reaches has no number") {
    // Pulls run north at 5 m, 15 m, … from one side of 402.5 m: near the western side at 5 m and 15
    // m or at 7.5 m and 17.5 m.
    const auto block = [](double west, double east, double south) {
        const double low = -119.7 + west / 89'444, high = -119.7 + east / 89'444;
        return fmt::format(R"({{"type": "Feature", "properties": {{}}, "geometry": {{"type":
"Polygon", "coordinates": [[[{0}, {2}], [{1}, {2}], [{1}, {3}], [{0}, {3}], [{0}, {2}]]]}}}})",
                           low, high, south, south + 0.001);
    };
    const lang::Outcome<FieldAnswer> field =
        ask(question(R"({"type": "FeatureCollection", "features": [)" + block(8.5, 13.5, 36.606) +
                     "," + square() + "," + block(10, 20, 36.608) + "]}"));
    REQUIRE(field);
    REQUIRE(field->blocks.size() == 3);
    CHECK(field->blocks[0].pulls == 0);
    CHECK(field->blocks[0].order == 0);
    CHECK(field->blocks[0].mean == 0);
    CHECK(field->blocks[1].pulls == 40);
    CHECK(field->blocks[2].pulls == 1);
    CHECK(field->blocks[1].order + field->blocks[2].order == 3);
    CHECK((field->blocks[1].order < field->blocks[2].order) ==
          (field->blocks[1].first_pull < field->blocks[2].first_pull));
}

TEST_CASE("what cannot be laid out says why, at the boundary's text") {
    FieldQuestion wide = question(square());
    wide.request.spacing = 2'000;
    const lang::Outcome<FieldAnswer> field = ask(wide);
    REQUIRE_FALSE(field);
    REQUIRE(field.said.sources != nullptr);
    CHECK(field.said.diagnostics.all().front().code == lang::Code::B909);
    CHECK(field.said.sources->file(field.said.diagnostics.all().front().primary.span.file).name() ==
          "square.geojson");
    const lang::Outcome<FieldAnswer> nothing = ask(question("{}"));
    REQUIRE_FALSE(nothing);
    CHECK(nothing.said.diagnostics.all().front().code == lang::Code::B902);
}

TEST_CASE("corners are told up to their limit, and the rest are counted") {
    // A comb along the north of each of two squares: 300 teeth have 600 corners, more than the
    // limit together with those of the first.
    const auto comb = [](double west, std::size_t teeth) {
        std::string ring =
            fmt::format("[{0}, 36.6], [{1}, 36.6], [{1}, 36.6036]", west, west + 0.0045);
        for (std::size_t k = 1; k < teeth; ++k)
            ring += fmt::format(
                ", [{:.9f}, {}]",
                west + 0.0045 * (1 - static_cast<double>(k) / static_cast<double>(teeth)),
                k % 2 == 0 ? 36.6036 : 36.6034);
        return fmt::format("[[{0}, [{1}, 36.6036], [{1}, 36.6]]]", ring, west);
    };
    const auto field =
        ask(question(fmt::format(R"({{"type": "Feature", "properties": {{}}, "geometry": {{"type":
"MultiPolygon", "coordinates": [{}, {}]}}}})",
                                 comb(-119.7, 240), comb(-119.69, 240))));
    REQUIRE(field);
    REQUIRE(field->corners.size() == 2);
    CHECK(field->corners[0].size() == 239 + 4);
    CHECK(field->corners[0].size() + field->corners[1].size() == most_corners);
    CHECK(field->corners_left_out == 2 * (239 + 4) - most_corners);
}

TEST_CASE("a corner is where an edge bends by half a meter, seen from the last one") {
    const auto at = [](const PlaneRing& ring) {
        std::vector<std::pair<double, double>> found;
        for (const FieldCorner& corner : field_corners(PlaneField{}, ring))
            found.emplace_back(corner.at.x, corner.at.y);
        return found;
    };
    using Points = std::vector<std::pair<double, double>>;
    const Points square = {{0, 0}, {100, 0}, {100, 100}, {0, 100}};
    CHECK(at({{0, 0}, {100, 0}, {100, 100}, {0, 100}}) == square);
    CHECK(at({{0, 0}, {50, 0.4}, {100, 0}, {100, 100}, {0, 100}}) == square);
    CHECK(at({{0, 0}, {50, 0.6}, {100, 0}, {100, 100}, {0, 100}}).size() == 5);
    // The last point too, and a bend that grows: 0.4 m off from its neighbors, then 0.8 m.
    CHECK(at({{0, 0}, {100, 0}, {100, 100}, {0, 100}, {0.4, 50}}) == square);
    CHECK(at({{0, 0}, {40, -0.4}, {80, -1.6}, {120, -3.6}, {120, 100}}).size() == 4);
    // Out and back the same way.
    CHECK(at({{0, 0}, {50, 80}, {0, 0}, {-50, 10}}).size() == 4);
}

TEST_CASE("blocks say where they are and how long they take, without a speed not how long") {
    const auto ring = [](double west) {
        return fmt::format(
            "[[[{0}, 36.6], [{1}, 36.6], [{1}, 36.6036], [{0}, 36.6036], [{0}, 36.6]]]", west,
            west + 0.0045);
    };
    const auto feature = [&](double west, const char* name) {
        return fmt::format(R"({{"type": "Feature", "properties": {{"name": "{}"}}, "geometry":
{{"type": "MultiPolygon", "coordinates": [{}]}}}})",
                           name, ring(west));
    };
    FieldQuestion asked =
        question(R"({"type": "FeatureCollection", "features": [)" + feature(-119.7, "West") + ", " +
                 feature(-119.69, "East") + "]}");
    const auto field = ask(asked);
    REQUIRE(field);
    REQUIRE(field->blocks.size() == 2);
    CHECK(field->blocks[1].name == "East");
    CHECK(field->blocks[1].number == 2);
    CHECK(field->blocks[1].file == "square.geojson");
    CHECK(field->corners_of == std::vector<std::size_t>{0, 1});
    // A hundredth of a degree apart, where 0.0045 are 402.5 m; both as far north.
    const FieldBlock &west = field->blocks[0], &east = field->blocks[1];
    CHECK(east.middle.x - west.middle.x == doctest::Approx(402.5 / 0.0045 * 0.01).epsilon(0.003));
    CHECK(east.middle.x + west.middle.x == doctest::Approx(0).epsilon(0.1));
    CHECK(east.middle.y == doctest::Approx(west.middle.y));
    CHECK(std::abs(east.middle.y) < 1);
    REQUIRE(east.ripping);
    CHECK(*east.ripping == doctest::Approx(40 * 399.5 / 3600).epsilon(0.003));
    CHECK(east.mean == doctest::Approx(399.5 / 0.3048).epsilon(0.003));
    CHECK(west.order + east.order == 3);
    asked.request.speed = 0;
    const auto still = ask(asked);
    REQUIRE(still);
    CHECK_FALSE(still->ripping);
    CHECK_FALSE(still->blocks[0].ripping);
    CHECK_FALSE(still->blocks[0].turning);
    CHECK(still->blocks[0].pulls == west.pulls);
}

} // namespace field_test
