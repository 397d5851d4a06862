// Features, fences and soils of the world's files, worked out by hand.
#include "engine/field/features.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "engine/field/boundary_reference.h"
#include "engine/field/clipping.h"
#include "engine/field/laid_field.h"
#include "engine/field/soils.h"

namespace features_test {

using namespace acre;
using namespace acre::engine;

namespace {

// Metres east and north of a place near 36.6 north as degrees: 89,400 and 110,980 to a degree,
// within a thousandth.
std::string ring(const std::vector<Point>& points) {
    std::string out = "[[";
    for (std::size_t i = 0; i <= points.size(); ++i) {
        const Point p = points[i % points.size()];
        out += fmt::format("{}[{:.9f},{:.9f}]", i == 0 ? "" : ",", -119.7 + p.x / 89400,
                           36.6 + p.y / 110980);
    }
    return out + "]]";
}
std::string feature(const std::string& properties, const std::vector<Point>& points) {
    return R"({"type":"Feature","properties":{)" + properties +
           R"(},"geometry":{"type":"Polygon","coordinates":)" + ring(points) + "}}";
}
std::string collection(const std::vector<std::string>& features) {
    std::string out = R"({"type":"FeatureCollection","features":[)";
    for (std::size_t i = 0; i < features.size(); ++i)
        out += (i == 0 ? "" : ",") + features[i];
    return out + "]}";
}
std::vector<Point> box(double x, double y, double width, double height) {
    return {{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}};
}

struct Laid {
    std::optional<LaidField> field;
    std::string fault; // code and title
};
Laid laid(std::vector<BoundaryText> texts) {
    LayoutRequest request;
    request.spacing = 2;
    request.speed = 0.7;
    request.turn_time = 40;
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    Laid out{lay_texts(std::move(texts), request, 0.0, sources, diagnostics), {}};
    if (!out.field)
        out.fault = std::string(lang::name_of(diagnostics.all()[0].code)) + " " +
                    diagnostics.all()[0].title;
    return out;
}

const std::string home =
    feature(R"("name":"Home place","soil":"loam","depth":6)", box(0, 0, 400, 300));
const std::string river = feature(R"("Name":"River")", box(399.8, 0, 200, 300));

} // namespace

TEST_CASE("a reference names a file and perhaps a feature") {
    CHECK(split_reference("ranch.geojson").feature.empty());
    CHECK(split_reference("ranch.geojson#Home place").file == "ranch.geojson");
    CHECK(split_reference("ranch.geojson#Home place").feature == "Home place");
    CHECK(split_reference("a#1/ranch.json#2").file == "a#1/ranch.json");
    CHECK(split_reference("field#3.geojson").file == "field#3.geojson");
}

TEST_CASE("each feature is a block, and an overlap along the fence counts once") {
    const Laid out = laid({{"r.geojson", collection({home, river}), {}}});
    REQUIRE(out.field);
    REQUIRE(out.field->boundary.blocks.size() == 2);
    CHECK(out.field->boundary.blocks[0].name == "Home place");
    CHECK(out.field->boundary.blocks[1].name == "River");
    REQUIRE(out.field->boundary.blocks[0].properties.size() == 2);
    CHECK(out.field->boundary.blocks[0].properties[0].name == "depth");
    CHECK(out.field->boundary.blocks[0].properties[0].value == "6");
    // 20 cm by 300 m.
    CHECK(out.field->plane.shared == doctest::Approx(60).epsilon(0.03));
    REQUIRE(out.field->boundary.repairs.size() == 1);
    CHECK(out.field->layout.blocks[0].ground == doctest::Approx(400.0 * 300).epsilon(0.002));
    CHECK(out.field->layout.blocks[1].ground == doctest::Approx(199.8 * 300).epsilon(0.003));
    const double all = out.field->layout.ripped_area + out.field->layout.unripped.gaps;
    CHECK(all == doctest::Approx(out.field->plane.area));
    // The fence is upright, and so are the pulls: each on its own side of it.
    CHECK(out.field->layout.blocks[0].pulls == 200);
    CHECK(out.field->layout.blocks[1].pulls >= 99);
}

TEST_CASE("one feature is picked by name or number, several files make one field") {
    CHECK(laid({{"r.geojson", collection({home, river}), "river"}}).field->plane.area ==
          doctest::Approx(200.0 * 300).epsilon(0.003));
    const Laid picked = laid({{"r.geojson", collection({home, river}), "river"}});
    CHECK(picked.field->boundary.name == "River");
    CHECK(picked.field->boundary.blocks.size() == 1);
    CHECK(laid({{"r.geojson", collection({home, river}), "1"}}).field->boundary.name ==
          "Home place");
    CHECK(laid({{"r.geojson", collection({home, river}), "3"}}).fault ==
          "B902 no feature `3` in this file");
    const Laid two =
        laid({{"h.geojson", home, {}}, {"w.geojson", feature("", box(0, 400, 60, 80)), {}}});
    REQUIRE(two.field);
    CHECK(two.field->file == "h.geojson, w.geojson");
    REQUIRE(two.field->boundary.blocks.size() == 2);
    CHECK(block_name(two.field->boundary, 1) == "block 2");
    CHECK(two.field->boundary.blocks[1].file == "w.geojson");
}

TEST_CASE("blocks that are the same ground are refused by name") {
    CHECK(laid({{"r.geojson",
                 collection({home, feature(R"("name":"Twice")", box(300, 0, 200, 300))}),
                 {}}})
              .fault == "B908 `Home place` and `Twice` overlap by more than a fence");
    CHECK(laid({{"r.geojson", home, {}}, {"again.geojson", home, {}}}).fault ==
          "B908 `Home place` and `Home place` overlap by more than a fence");
}

TEST_CASE("a block within another is a hole, or ground of its own") {
    const std::string pond = feature(R"("name":"Pond")", box(100, 100, 50, 40));
    for (const auto& features : {collection({home, pond}), collection({pond, home})})
        CHECK(laid({{"r.geojson", features, {}}}).fault == "B908 `Pond` lies within `Home place`");
}

TEST_CASE("blocks that meet are parted up to so many points") {
    // Its northern edge runs through so many points a centimetre or so apart.
    const auto ragged = [](double west, std::size_t points) {
        std::vector<Point> ring = {{west, 0}, {west + 300, 0}, {west + 300, 300}};
        for (std::size_t i = 4; i < points; ++i)
            ring.push_back(
                {west + 300 - 300.0 * static_cast<double>(i - 3) / static_cast<double>(points - 3),
                 i % 2 == 0 ? 300 : 300.4});
        ring.push_back({west, 300});
        return feature("", ring);
    };
    const auto fault = [&](double west, std::size_t points) {
        return laid({{"r.geojson", collection({ragged(0, points), ragged(west, 5)}), {}}}).fault;
    };
    CHECK(fault(299.9, most_clipped_points - 4) == "B907 the boundary is too ragged to check");
    CHECK(fault(299.9, 100) == "");
    CHECK(fault(310, 100) == "");
}

TEST_CASE("files of one field bring their marks and mends, each of these said once") {
    const std::string clockwise = R"({"type":"Polygon","coordinates":)" +
                                  ring({{0, 400}, {0, 480}, {60, 480}, {60, 400}}) + "}";
    const std::string ditch = R"({"type":"FeatureCollection","features":[)" +
                              feature("", {{100, 400}, {100, 480}, {160, 480}, {160, 400}}) +
                              R"(,{"type":"Feature","properties":{"keep_off":"1 ft"},"geometry":)"
                              R"({"type":"Point","coordinates":[-119.7,36.6]}}]})";
    const Laid out = laid({{"a.json", clockwise, {}}, {"b.json", home, {}}, {"c.json", ditch, {}}});
    REQUIRE(out.field);
    CHECK(out.field->boundary.repairs ==
          std::vector<std::string>{"turned an outer ring that ran clockwise"});
    CHECK(out.field->boundary.marks.size() == 1);
    CHECK(out.field->boundary.blocks.size() == 3);
}

TEST_CASE(
    "two millimetres along a fence are told, and what cannot be laid out is told at the file") {
    const Laid out =
        laid({{"r.geojson", collection({home, feature("", box(399.998, 0, 200, 300))}), {}}});
    REQUIRE(out.field);
    CHECK(out.field->plane.shared == doctest::Approx(0.6).epsilon(0.1));
    REQUIRE(out.field->boundary.repairs.size() == 1);
    CHECK(out.field->boundary.repairs[0].starts_with("gave "));
    const auto fault = [](LayoutRequest request, std::optional<double> heading) {
        lang::SourceMap sources;
        lang::Diagnostics diagnostics;
        CHECK(!lay_texts({{"h.geojson", home, {}}}, request, heading, sources, diagnostics));
        REQUIRE(diagnostics.all().size() == 1);
        CHECK(diagnostics.all()[0].primary.span.file == 0);
        return std::string(lang::name_of(diagnostics.all()[0].code));
    };
    LayoutRequest request;
    CHECK(fault(request, std::nullopt) == "B910");
    CHECK(fault(request, 0.0) == "B910");
    request.spacing = 2'000;
    CHECK(fault(request, 0.0) == "B909");
    request.headland = 500;
    CHECK(fault(request, 0.0) == "B909");
}

TEST_CASE("a map of soils divides acres and distance, and what is not on it is said") {
    const Laid out = laid({{"h.geojson", home, {}}});
    REQUIRE(out.field);
    const std::string map =
        collection({feature(R"("soil":"clay")", box(-50, -50, 150, 500)),
                    feature(R"("name":"loam","top":"loam")", box(50, -50, 250, 500)),
                    feature(R"("soil":"clay")", box(5000, 5000, 10, 10))});
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const auto soils = lay_soils(*out.field, {"s.geojson", map, {}}, sources, diagnostics);
    REQUIRE(soils);
    REQUIRE(soils->size() == 3);
    // Clay has the first 100 m, being first on the map; loam the next 200, nothing the last 100.
    const double widths[] = {100, 200, 100};
    const char* names[] = {"clay", "loam", ""};
    double travel = 0;
    double pulls = 0;
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK((*soils)[i].soil == names[i]);
        CHECK((*soils)[i].ground == doctest::Approx(widths[i] * 300).epsilon(0.01));
        CHECK((*soils)[i].ripped_area == doctest::Approx(widths[i] * 300).epsilon(0.01));
        CHECK((*soils)[i].travel == doctest::Approx(widths[i] / 2 * 300).epsilon(0.02));
        travel += (*soils)[i].travel;
        pulls += (*soils)[i].pulls;
    }
    CHECK(travel == doctest::Approx(out.field->layout.travel));
    CHECK(pulls == doctest::Approx(static_cast<double>(out.field->layout.pulls.size())));
    REQUIRE((*soils)[1].properties.size() == 1);
    CHECK((*soils)[1].properties[0].name == "top");
}

TEST_CASE("of two soils that lie over each other the first on the map counts, near or far") {
    const Laid out = laid({{"h.geojson", home, {}}});
    REQUIRE(out.field);
    for (const double far : {-40.0, 5000.0}) { // m east; touches the field or does not
        const std::string map = collection({feature(R"("soil":"clay")", box(far, 0, 50, 50)),
                                            feature(R"("soil":"loam")", box(100, -50, 200, 500)),
                                            feature(R"("soil":"clay")", box(200, -50, 300, 500))});
        lang::SourceMap sources;
        lang::Diagnostics diagnostics;
        const auto soils = lay_soils(*out.field, {"s.geojson", map, {}}, sources, diagnostics);
        REQUIRE(soils);
        REQUIRE(soils->size() == 3);
        CHECK((*soils)[0].soil == "clay");
        CHECK((*soils)[0].feature == 1);
        CHECK((*soils)[0].ground == doctest::Approx(200 * 300).epsilon(0.01));
        CHECK((*soils)[1].ground == doctest::Approx(100 * 300).epsilon(0.01));
    }
}

TEST_CASE("two hundred soils may touch a field, and those beside or above it are none of them") {
    const Laid out = laid({{"h.geojson", home, {}}});
    REQUIRE(out.field);
    std::vector<std::string> strips = {feature(R"("soil":"east")", box(5000, 0, 300, 300)),
                                       feature(R"("soil":"north")", box(0, 5000, 300, 300))};
    for (int i = 0; i < 200; ++i)
        strips.push_back(feature(fmt::format(R"("soil":"s{}")", i), box(2 * i, 0, 2, 300)));
    const auto said = [&] {
        lang::SourceMap sources;
        lang::Diagnostics diagnostics;
        const auto soils =
            lay_soils(*out.field, {"s.geojson", collection(strips), {}}, sources, diagnostics);
        return soils ? fmt::format("{}", soils->size()) : diagnostics.all().at(0).title;
    };
    CHECK(said() == "200");
    strips.push_back(feature(R"("soil":"one more")", box(0, 290, 400, 20)));
    CHECK(said() == "more than 200 soils touch the field");
}

TEST_CASE("a hole up to the fence is a notch, holes side by side are one, and a repair says so") {
    const auto line = [](double x, double y, double width, double height) {
        std::vector<Point> points = box(x, y, width, height);
        if (width < 400) // holes run clockwise
            std::reverse(points.begin(), points.end());
        const std::string rings = ring(points);
        return rings.substr(1, rings.size() - 2);
    };
    const auto with_holes = [&](const std::string& holes) {
        return laid({{"h.geojson",
                      R"({"type":"Polygon","coordinates":[)" + line(0, 0, 400, 300) + holes + "]}",
                      {}}});
    };
    const double whole = with_holes("").field->plane.area;
    for (const std::string& holes :
         {"," + line(0, 100, 50, 40), "," + line(0, 0, 50, 40), "," + line(350, 260, 50, 40),
          "," + line(100, 100, 20, 40) + "," + line(120, 100, 30, 40)}) {
        CAPTURE(holes);
        const Laid out = with_holes(holes);
        REQUIRE(out.field);
        CHECK(whole - out.field->plane.area == doctest::Approx(50.0 * 40).epsilon(0.003));
        CHECK(out.field->boundary.repairs ==
              std::vector<std::string>{"took holes off along the edges that they touch"});
        const Layout& layout = out.field->layout;
        CHECK(layout.ripped_area + layout.unripped.gaps ==
              doctest::Approx(out.field->plane.area).epsilon(1e-6));
        CHECK(layout.blocks[0].gross == doctest::Approx(out.field->plane.outer_area));
        for (const Pull& pull : layout.pulls) // upright, between the fences
            CHECK(pull.length() < 300.5);
    }
    CHECK(with_holes("," + line(100, 100, 50, 40)).field->boundary.repairs.empty());
    CHECK(with_holes("," + line(380, 100, 50, 40)).fault.substr(0, 4) == "B908");
    CHECK(with_holes("," + line(0, 0, 400, 300)).fault.substr(0, 4) == "B908");
}

TEST_CASE("what lies on one soil, by name or number, and what does not") {
    const Laid out = laid({{"h.geojson", home, {}}});
    REQUIRE(out.field);
    const std::string map = collection({feature(R"("soil":"Clay")", box(-50, -50, 150, 500)),
                                        feature(R"("soil":"loam")", box(100, -50, 80, 500)),
                                        feature(R"("soil":"loam")", box(180, -50, 120, 500))});
    const auto within = [&](const std::string& soil) {
        lang::SourceMap sources;
        lang::Diagnostics diagnostics;
        KnownBoundaries known;
        const auto ground =
            ground_within(*out.field, {"s.geojson", map, soil}, sources, diagnostics, known);
        CHECK(ground.has_value() != diagnostics.has_errors());
        return ground ? ground->ripped_area : -1;
    };
    CHECK(within("clay") == doctest::Approx(100.0 * 300).epsilon(0.01));
    CHECK(within("1") == within("Clay"));
    CHECK(within("loam") == doctest::Approx(200.0 * 300).epsilon(0.01));
    CHECK(within("2") == within("loam"));
    CHECK(within("sand") == -1);
    CHECK(within("") == -1);
}

TEST_CASE("letters are the same whatever their size, from A to Z and nothing else") {
    CHECK(same_letters("ABYZ", "abyz"));
    CHECK(same_letters("abyz", "ABYZ"));
    CHECK(same_letters("North 40", "nORTH 40"));
    CHECK(same_letters("", ""));
    CHECK_FALSE(same_letters("@[", "`{")); // beside the letters, as far apart as small from large
    CHECK_FALSE(same_letters("north", "northern"));
    CHECK_FALSE(same_letters("northern", "north"));
    CHECK_FALSE(same_letters("north", "nolth"));
}

TEST_CASE("a number of a feature is all digits") {
    CHECK(feature_number("1") == 1);
    CHECK(feature_number("12") == 12);
    for (const char* text : {"", "0", "1a", "a1", " 1", "1 ", "-1", "1.5", "99999999999999999999"})
        CHECK(feature_number(text) == 0);
}

} // namespace features_test
