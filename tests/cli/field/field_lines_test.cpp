// The pulls as lines for guidance equipment, whole.
#include <doctest/doctest.h>

#include <string>

#include <nlohmann/json.hpp>

#include "tests/cli/field/made_field.h"

namespace field_lines_test {

using namespace made_field;
using Json = nlohmann::ordered_json;

namespace {

// Two blocks that are worked and one that is not. The second pull of the first is the longer one,
// the third no longer than it.
engine::FieldAnswer two_blocks() {
    engine::FieldAnswer field = made(200, 200);
    field.name = "Field";
    field.spacing = 8.128;
    field.blocks = {block_of("East & \"x\""), block_of("Pond", 2, 0), block_of("West", 3, 2)};
    field.pulls = {pull_of(1, {0, 0}, {0, 10}, 32.84), pull_of(2, {10, 10}, {10, -10}, 65.66),
                   pull_of(3, {20, 10}, {20, -10}, 65.66), pull_of(1, {5, 5}, {-5, 5}, 32.8, 2)};
    field.corners = {{{{0, 0}, {-120.00000004, 36}}, {{0, 0}, {-120.1, 36.1}}},
                     {{{0, 0}, {-120.2, 36.2}}},
                     {{{0, 0}, {-120.3, 36.3}}}};
    field.corners_of = {0, 2, 0};
    return field;
}

} // namespace

TEST_CASE(
    "GPX has each corner, the longest pull of a block as its route, and every pull as a track") {
    const std::string expected =
        R"(<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="Acrewright" xmlns="http://www.topografix.com/GPX/1/1">
<wpt lat="36.0000000" lon="-120.0000000"><name>East &amp; &quot;x&quot;, corner 1</name></wpt>
<wpt lat="36.1000000" lon="-120.1000000"><name>East &amp; &quot;x&quot;, corner 2</name></wpt>
<wpt lat="36.2000000" lon="-120.2000000"><name>West, corner 1</name></wpt>
<wpt lat="36.3000000" lon="-120.3000000"><name>East &amp; &quot;x&quot;, corner 3</name></wpt>
<rte><name>East &amp; &quot;x&quot;, A-B line</name><desc>heading 180.00 deg, 8.13 ft apart</desc><rtept lat="36.0100000" lon="-119.9900000"/><rtept lat="35.9900000" lon="-119.9900000"/></rte>
<rte><name>West, A-B line</name><desc>heading 270.00 deg, 8.13 ft apart</desc><rtept lat="36.0050000" lon="-119.9950000"/><rtept lat="36.0050000" lon="-120.0050000"/></rte>
<trk><name>East &amp; &quot;x&quot;, pull 1</name><trkseg><trkpt lat="36.0000000" lon="-120.0000000"/><trkpt lat="36.0100000" lon="-120.0000000"/></trkseg></trk>
<trk><name>East &amp; &quot;x&quot;, pull 2</name><trkseg><trkpt lat="36.0100000" lon="-119.9900000"/><trkpt lat="35.9900000" lon="-119.9900000"/></trkseg></trk>
<trk><name>East &amp; &quot;x&quot;, pull 3</name><trkseg><trkpt lat="36.0100000" lon="-119.9800000"/><trkpt lat="35.9900000" lon="-119.9800000"/></trkseg></trk>
<trk><name>West, pull 4</name><trkseg><trkpt lat="36.0050000" lon="-119.9950000"/><trkpt lat="36.0050000" lon="-120.0050000"/></trkseg></trk>
</gpx>
)";
    CHECK(cli::field_gpx(two_blocks()) == expected);
}

TEST_CASE("GeoJSON has the longest pull of a block as its line, then every pull in its order") {
    engine::FieldAnswer field = two_blocks();
    field.pulls[1].from_place.lon = -119.98765432199;
    const Json json = Json::parse(cli::field_lines(field));
    REQUIRE(json["features"].size() == 6);
    const Json east = {{"kind", "A-B line"},
                       {"block", "East & \"x\""},
                       {"heading_deg", 180.0},
                       {"spacing_ft", 8.13}};
    CHECK(json["features"][0]["properties"] == east);
    CHECK(json["features"][0]["geometry"]["coordinates"] ==
          Json::parse("[[-119.9876543,36.01],[-119.99,35.99]]"));
    CHECK(json["features"][1]["properties"]["block"] == "West");
    const struct {
        int pull, row;
        const char* block;
        double heading, feet;
    } rows[] = {{1, 1, "East & \"x\"", 0, 32.8},
                {2, 2, "East & \"x\"", 180, 65.7},
                {3, 3, "East & \"x\"", 180, 65.7},
                {4, 1, "West", 270, 32.8}};
    for (std::size_t i = 0; i < 4; ++i) {
        const Json properties = {{"kind", "pull"},
                                 {"pull", rows[i].pull},
                                 {"row", rows[i].row},
                                 {"block", rows[i].block},
                                 {"heading_deg", rows[i].heading},
                                 {"length_ft", rows[i].feet}};
        CHECK(json["features"][i + 2]["properties"] == properties);
    }
    CHECK(json["features"][5]["geometry"]["coordinates"] ==
          Json::parse("[[-119.995,36.005],[-120.005,36.005]]"));
}

TEST_CASE("the heading of a line is where it is driven, in hundredths of a degree") {
    const struct {
        double east, north, heading;
    } rows[] = {{0, 10, 0},      {10, 10, 45},   {10, 0, 90},
                {-10, -10, 225}, {-10, 10, 315}, {10, 20, 26.57}};
    for (const auto& row : rows) {
        engine::FieldAnswer field = made(100, 100);
        field.pulls = {pull_of(1, {3, 4}, {3 + row.east, 4 + row.north})};
        CHECK(Json::parse(cli::field_lines(field))["features"][0]["properties"]["heading_deg"] ==
              row.heading);
    }
}

} // namespace field_lines_test
