// Lines, points and ponds of a boundary file: told, or kept off. Areas are worked out by hand.
#include "engine/field/marks.h"

#include <cmath>
#include <numbers>
#include <optional>
#include <string>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "engine/field/keep_off.h"
#include "engine/field/laid_field.h"

namespace marks_test {

using namespace acre;
using namespace acre::engine;

namespace {

// Metres east and north of a place near 36.6 north, within a thousandth.
std::string points(const std::vector<Point>& all) {
    std::string out;
    for (const Point& p : all)
        out += fmt::format("{}[{:.9f},{:.9f}]", out.empty() ? "" : ",", -119.7 + p.x / 89400,
                           36.6 + p.y / 110980);
    return out;
}
std::string feature(const std::string& properties, const std::string& type,
                    const std::string& coordinates) {
    return R"({"type":"Feature","properties":{)" + properties + R"(},"geometry":{"type":")" + type +
           R"(","coordinates":)" + coordinates + "}}";
}
std::string box(double x, double y, double width, double height) {
    return "[[" +
           points({{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}, {x, y}}) +
           "]]";
}
const std::string field = feature(R"("name":"Home place")", "Polygon", box(0, 0, 400, 300));

struct Laid {
    std::optional<LaidField> field;
    lang::Diagnostics diagnostics;

    std::string said() const {
        std::string out;
        for (const lang::Diagnostic& one : diagnostics.all())
            out +=
                (out.empty() ? "" : "; ") + std::string(lang::name_of(one.code)) + " " + one.title;
        return out;
    }
    double kept() const { return field->plane.outer_area - field->plane.area; }
};
Laid laid(const std::string& mark, bool before = false) {
    LayoutRequest request;
    request.spacing = 2;
    request.speed = 0.7;
    request.turn_time = 40;
    lang::SourceMap sources;
    Laid out;
    const std::string both = before ? mark + "," + field : field + "," + mark;
    out.field =
        lay_texts({{"r.geojson", R"({"type":"FeatureCollection","features":[)" + both + "]}", {}}},
                  request, 0.0, sources, out.diagnostics);
    return out;
}
std::string line(const std::vector<Point>& all) {
    return "[" + points(all) + "]";
}

// Whether that is said of pulls on the ground of one feature and a mark.
bool goes_over(const std::string& ground, const std::string& mark) {
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    LayoutRequest request;
    request.spacing = 2;
    CHECK(lay_texts({{"r.geojson",
                      R"({"type":"FeatureCollection","features":[)" + ground + "," + mark + "]}",
                      {}}},
                    request, 0.0, sources, diagnostics));
    return !diagnostics.all().empty();
}

constexpr double whole = 400.0 * 300;

} // namespace

TEST_CASE("a line or a point on the ground is told, one beside it is not") {
    const auto said = [](const std::string& type, const std::string& coordinates) {
        return laid(feature(R"("name":"Ditch")", type, coordinates)).said();
    };
    const std::string told = "L844 pulls go over `Ditch` of r.geojson";
    CHECK(said("LineString", line({{-50, 100}, {500, 120}})) == told);
    CHECK(said("LineString", line({{100, 100}, {120, 110}})) == told); // both ends inside
    CHECK(said("MultiLineString", "[" + line({{0, -9}, {9, -9}}) + "," +
                                      line({{200, -10}, {200, 310}}) + "]") == told);
    CHECK(said("Point", points({{10, 10}})) == told);
    CHECK(said("MultiPoint", line({{-10, 10}, {30, 30}})) == told);
    CHECK(said("LineString", line({{-50, -5}, {500, -5}})) == "");
    CHECK(said("LineString", line({{-50, 0}, {500, 0}})) == ""); // along the edge
    CHECK(said("Point", points({{410, 10}})) == "");
    CHECK(said("Point", "[]") == "");
    CHECK(laid(feature("", "Point", points({{10, 10}}))).said() ==
          "L844 pulls go over a point without a name of r.geojson");
    // The field is not called after what comes before it.
    CHECK(laid(feature(R"("name":"Ditch")", "Point", points({{10, 10}})), true)
              .field->boundary.name == "Home place");
}

TEST_CASE("a line is told where any of it lies on the ground, however it runs") {
    // An L: 400 m by 300 m without its upper right quarter of 200 m by 150 m.
    const std::string ell = feature(
        R"("name":"L")", "Polygon",
        "[[" + points({{0, 0}, {400, 0}, {400, 150}, {200, 150}, {200, 300}, {0, 300}, {0, 0}}) +
            "]]");
    const auto told = [&](const std::vector<Point>& all) {
        return goes_over(ell, feature("", all.size() == 1 ? "Point" : "LineString",
                                      all.size() == 1 ? points(all) : line(all)));
    };
    for (const std::vector<Point>& on : std::vector<std::vector<Point>>{
             {{100, 200}},
             {{300, 100}},
             {{300, 10}, {300, -500}},            // by a fiftieth of it
             {{300, -50}, {300, 50}},             // in by one end
             {{195, 310}, {410, 100}},            // over the upper right end of the foot
             {{150, 350}, {450, 50}},             // over the inner corner's both sides
             {{-10, 40}, {40, -10}},              // over a corner
             {{300, 200}, {350, 220}, {350, 20}}, // by its second stretch
             {{-50, -50}, {-50, 350}, {50, 280}}, // by its last
             {{-1'000, 75}, {1'000, 75}},         // from far away, through all of it
             {{100, -1'000}, {100, 1'000}}})
        CHECK(told(on));
    for (const std::vector<Point>& off :
         std::vector<std::vector<Point>>{{{300, 200}},
                                         {{-1, 100}},
                                         {{300, 200}, {390, 290}}, // in the missing quarter
                                         {{201, 151}, {500, 500}},
                                         {{-20, 15}, {15, -20}}, // past the corner
                                         {{-50, -50}, {450, -50}, {450, 350}, {250, 350}},
                                         {{200, 300}, {200, 150}, {400, 150}}, // along the edge
                                         {{500, 0}, {900, 300}},
                                         {{0, 400}, {400, 301}}})
        CHECK_FALSE(told(off));
}

TEST_CASE("a point is on ground whose edge slants, or beside it") {
    const std::string ground =
        feature("", "Polygon", "[[" + points({{0, 0}, {400, 0}, {0, 300}, {0, 0}}) + "]]");
    const auto told = [&](Point at) {
        return goes_over(ground, feature("", "Point", points({at})));
    };
    // x / 400 + y / 300 is 0.97 or 1.03.
    for (const double x : {40.0, 200.0, 360.0}) {
        CHECK(told({x, (0.97 - x / 400) * 300}));
        CHECK_FALSE(told({x, (1.03 - x / 400) * 300}));
    }
}

TEST_CASE("a mark in a hole is no ground that a pull goes over") {
    const std::string yard =
        R"({"type":"FeatureCollection","features":[)" +
        feature("", "Polygon",
                "[[" + points({{0, 0}, {400, 0}, {400, 300}, {0, 300}, {0, 0}}) + "],[" +
                    points({{100, 100}, {100, 200}, {200, 200}, {200, 100}, {100, 100}}) + "]]") +
        "," + feature(R"("name":"Well")", "Point", points({{150, 150}})) + "]}";
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    LayoutRequest request;
    request.spacing = 2;
    CHECK(lay_texts({{"r.geojson", yard, {}}}, request, 0.0, sources, diagnostics));
    CHECK(diagnostics.all().empty());
}

TEST_CASE("nothing is ripped so far from a line, a point or a pond as it says") {
    const auto kept = [](const std::string& said, const std::string& type,
                         const std::string& coordinates) {
        const Laid out =
            laid(feature(R"("name":"Line","keep_off":")" + said + "\"", type, coordinates));
        REQUIRE_MESSAGE(out.field, out.said());
        CHECK(out.said() == "");
        const Layout& layout = out.field->layout;
        CHECK(out.field->plane.outer_area == doctest::Approx(whole).epsilon(0.002));
        // What is ripped, left and kept off is the whole field, also by block.
        CHECK(layout.ripped_area + layout.unripped.gaps + out.kept() ==
              doctest::Approx(out.field->plane.outer_area).epsilon(1e-6));
        CHECK(layout.blocks[0].gross == doctest::Approx(out.field->plane.outer_area).epsilon(1e-6));
        CHECK(layout.blocks[0].gross - layout.blocks[0].ground ==
              doctest::Approx(out.kept()).epsilon(1e-5));
        CHECK(out.field->boundary.blocks.size() == 1);
        return out.kept();
    };
    using std::numbers::pi;
    // From fence to fence; from a point inside, with a round end; around a well; around a pond.
    CHECK(kept("10 m", "LineString", line({{-90, 150}, {500, 150}})) ==
          doctest::Approx(400 * 20).epsilon(0.002));
    CHECK(kept("10 m", "LineString", line({{200, 150}, {500, 150}})) ==
          doctest::Approx(200 * 20 + pi * 100 / 2).epsilon(0.003));
    CHECK(kept("50 ft", "Point", points({{200, 100}})) ==
          doctest::Approx(pi * 15.24 * 15.24).epsilon(0.003));
    CHECK(kept("10m", "Polygon", box(100, 100, 50, 40)) ==
          doctest::Approx(50 * 40 + 2 * 10 * 90 + pi * 100).epsilon(0.003));
    CHECK(kept("0 ft", "Polygon", box(100, 100, 50, 40)) ==
          doctest::Approx(50 * 40).epsilon(0.003));
    CHECK(kept("10 m", "Point", points({{-50, 100}})) == doctest::Approx(0));
}

TEST_CASE("what is kept off from far away, too ragged, or of everything is refused") {
    const auto fault = [](const std::string& said, const std::string& type,
                          const std::string& coordinates) {
        const Laid out = laid(feature(R"("keep_off":)" + said, type, coordinates));
        CHECK_FALSE(out.field);
        return out.said();
    };
    const std::string well = points({{200, 100}});
    for (const char* said : {"50", "\"50\"", "\"-1 ft\"", "\"1001 ft\"", "\"5 ac\"", "\"ft\""})
        CHECK(fault(said, "Point", well).substr(0, 29) == "B905 `keep_off` is no distanc");
    CHECK(fault("\"600 ft\"", "LineString", line({{-90, 150}, {500, 150}})) ==
          "B909 what is kept off leaves nothing of the field");
    CHECK(fault("\"5 ft\"", "LineString", line({{-70'000, 150}, {500, 150}})) ==
          "B906 what is kept off goes too far from the field");
    std::vector<Point> ragged;
    for (std::size_t i = 0; i <= most_keep_off_points; ++i)
        ragged.push_back({0.05 * static_cast<double>(i), i % 2 == 0 ? 100.0 : 101.0});
    CHECK(fault("\"5 ft\"", "LineString", line(ragged)) ==
          "B907 what is kept off has too many points");
    ragged.pop_back();
    CHECK(laid(feature(R"("keep_off":"5 ft")", "LineString", line(ragged))).field);
}

} // namespace marks_test
