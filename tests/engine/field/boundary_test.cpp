#include "engine/field/boundary.h"

#include <string>

#include <doctest/doctest.h>

#include "engine/field/degrees.h"
#include "lang/diag/codes.h"

namespace boundary_test {

using namespace acre;
using engine::fault_of;
using engine::LonLat;
using engine::LonLatRing;

namespace {

struct Read {
    std::optional<engine::Boundary> boundary;
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
};
Read read(const std::string& text) {
    Read result;
    const lang::FileId file = result.sources.add("field.geojson", text);
    result.boundary = engine::read_boundary(result.sources, file, result.diagnostics);
    return result;
}
std::string polygon(const std::string& rings) {
    return R"({"type":"Polygon","coordinates":[)" + rings + "]}";
}
const std::string square = "[[-120,36],[-119.99,36],[-119.99,36.01],[-120,36.01],[-120,36]]";

} // namespace

TEST_CASE("a polygon is read by itself, in a feature, and in a collection") {
    for (const std::string& text :
         {polygon(square),
          R"({"type":"Feature","properties":{"name":"North 40","tags":[1,[2]]},"geometry":)" +
              polygon(square) + "}",
          R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":null,)"
          R"("geometry":{"type":"Point","coordinates":[1,2]}},)"
          R"({"type":"Feature","properties":{},"geometry":)" +
              polygon(square) + "}]}",
          R"({"type":"MultiPolygon","coordinates":[[)" + square + "]]}",
          R"({"type":"GeometryCollection","geometries":[)" + polygon(square) + "]}"}) {
        const Read result = read(text);
        REQUIRE(result.boundary);
        CHECK(result.boundary->polygons.size() == 1);
        CHECK(result.boundary->polygons[0].outer.size() == 4);
        CHECK(result.boundary->repairs.empty());
    }
    CHECK(read(R"({"type":"Feature","properties":{"name":"North 40"},"geometry":)" +
               polygon(square) + "}")
              .boundary->name == "North 40");
}

TEST_CASE("what can be mended is mended and said") {
    struct {
        std::string rings, said;
    } const cases[] = {
        {"[[-120,36],[-119.99,36],[-119.99,36.01],[-120,36.01]]",
         "closed a ring whose last point is not its first"},
        {"[[-120,36],[-120,36.01],[-119.99,36.01],[-119.99,36],[-120,36]]",
         "turned an outer ring that ran clockwise"},
        {"[[-120,36],[-120,36],[-119.99,36],[-119.99,36.01],[-120,36.01],[-120,36]]",
         "left out points that repeat the one before"},
    };
    for (const auto& [rings, said] : cases) {
        CAPTURE(rings);
        const Read result = read(polygon(rings));
        REQUIRE(result.boundary);
        CHECK(result.boundary->polygons[0].outer.size() == 4);
        REQUIRE(result.boundary->repairs.size() == 1);
        CHECK(result.boundary->repairs[0] == said);
    }
}

TEST_CASE("a bad boundary is an error with its place") {
    const std::string head = R"({"type":"Polygon","coordinates":[)";
    struct {
        std::string text;
        lang::Code code;
        std::uint32_t column; // of the caret; 0: not checked
    } const cases[] = {
        {"", lang::Code::B901, 0},
        {"[1,2", lang::Code::B901, 0},
        {R"({"type":"Polygon","coordinates":[[[NaN,36]]]})", lang::Code::B901, 36},
        {R"({"type":"Polygon","coordinates":[[[1e999,36]]]})", lang::Code::B901, 0},
        {R"({"type":"Polygon"})", lang::Code::B902, 0},
        {R"({"type":"Point","coordinates":[1,2]})", lang::Code::B902, 0},
        {R"([1])", lang::Code::B902, 0},
        {R"({"coordinates":[]})", lang::Code::B902, 0},
        {R"({"type":"FeatureCollection","features":[]})", lang::Code::B902, 0},
        {head + "]}", lang::Code::B905, 33},
        {head + "[[-120,36],[-119,36]]]}", lang::Code::B905, 34},
        {head + "[[-120,36],[\"a\",36],[-119,36]]]}", lang::Code::B905, 45},
        {head + "[[-120,36],[-119,36],[684000,4100000]]]}", lang::Code::B903, 55},
        {head + "[[-120,36],[-119,36],[36,-120]]]}", lang::Code::B903, 55},
        {head + "[[179.9,10],[-179.9,10],[-179.9,10.1]]]}", lang::Code::B906, 34},
        {head + "[[10,86],[11,86],[11,86.1]]]}", lang::Code::B906, 35},
        // A longitude of the United States where the latitude stands, with its sign or without.
        {head + "[[36,-80],[36.01,-80],[36.01,-80.01]]]}", lang::Code::B903, 35},
        {head + "[[36,80],[36.01,80],[36.01,80.01]]]}", lang::Code::B903, 35},
        {"lon,lat\n-120,36\n", lang::Code::B901, 1},
        {R"({"type":"Polygon","crs":{"type":"name",)"
         R"("properties":{"name":"urn:ogc:def:crs:EPSG::32610"}},"coordinates":[)" +
             square + "]}",
         lang::Code::B903, 0},
        {std::string(100'000, '['), lang::Code::B901, 0},
    };
    for (const auto& [text, code, column] : cases) {
        CAPTURE(text.substr(0, 120));
        const Read result = read(text);
        CHECK(!result.boundary);
        REQUIRE(result.diagnostics.all().size() == 1);
        const lang::Diagnostic& diagnostic = result.diagnostics.all()[0];
        CHECK(lang::name_of(diagnostic.code) == lang::name_of(code));
        if (column != 0)
            CHECK(result.sources.file(0).position(diagnostic.primary.span.begin).column == column);
    }
}

TEST_CASE("a file of another kind is told as what it is") {
    const auto said = [](const std::string& text) {
        const Read result = read(text);
        REQUIRE(result.diagnostics.all().size() == 1);
        return result.diagnostics.all()[0].title;
    };
    CHECK(said("\xEF\xBB\xBF<?xml version='1.0'?>\n<kml>") == "this is no GeoJSON, but a KML file");
    CHECK(said("<?xml version='1.0'?><gpx>") == "this is no GeoJSON, but a GPX file");
    CHECK(said(" <html>") == "this is no GeoJSON, but an XML file");
    CHECK(said("corner;lat;lon\n1;36;-120") == "this is no GeoJSON, but a table");
    CHECK(said("{\"type\": Polygon, 1}") == "the boundary is not valid JSON");
    CHECK(said("nothing") == "the boundary is not valid JSON");
}

TEST_CASE("a field far to the north or in the south is one") {
    for (const char* place :
         {"[[25,69],[25.01,69],[25.01,69.01]]", "[[-70,-54],[-69.9,-54],[-70,-53.9]]",
          "[[100,75],[100.01,75],[100.01,75.01]]"})
        CHECK(read(polygon(place)).boundary);
}

TEST_CASE("points are counted up to the limit and not past it") {
    const auto ring = [](std::size_t points) {
        std::string text = "[";
        for (std::size_t i = 0; i < points; ++i)
            text += (i == 0 ? "[" : ",[") + std::to_string(1e-6 * static_cast<double>(i)) + "," +
                    std::to_string(i % 2) + "]";
        return text + "]";
    };
    CHECK(read(polygon(ring(engine::max_boundary_vertices))).boundary);
    const Read past = read(polygon(ring(engine::max_boundary_vertices + 1)));
    CHECK(!past.boundary);
    CHECK(lang::name_of(past.diagnostics.all()[0].code) == "B907");
}

TEST_CASE("what is no geometry is told, whatever stands in its place") {
    const auto said = [](const std::string& text) {
        const Read result = read(text);
        CHECK(!result.boundary);
        REQUIRE(result.diagnostics.all().size() == 1);
        const lang::Diagnostic& one = result.diagnostics.all()[0];
        return std::string(lang::name_of(one.code)) + " " + one.title;
    };
    CHECK(said(R"({"type":"Polygon","coordinates":7})") == "B902 a Polygon without coordinates");
    CHECK(said(R"({"type":"MultiPolygon","coordinates":null})") ==
          "B902 a MultiPolygon without coordinates");
    CHECK(said(R"({"type":"MultiPolygon","coordinates":[7]})") ==
          "B902 a MultiPolygon holds something that is not a list of rings");
    CHECK(said(R"({"type":"FeatureCollection"})") == "B902 a FeatureCollection without features");
    CHECK(said(R"({"type":"FeatureCollection","features":{}})") ==
          "B902 a FeatureCollection without features");
    CHECK(said(R"({"type":"GeometryCollection","geometries":7})") ==
          "B902 a GeometryCollection without geometries");
    CHECK(said(R"({"type":"FeatureCollection","features":[7]})") ==
          "B902 a GeoJSON object is missing");
    CHECK(said(R"({"type":7,"coordinates":[]})") == "B902 a GeoJSON object has no type");
    CHECK(said(R"({"type":"Feature"})") == "B902 no polygon in this file");
    CHECK(said(R"({"type":"Feature","geometry":null})") == "B902 no polygon in this file");
    CHECK(said(polygon("7")) == "B905 a ring is not a list of points");
    CHECK(said(polygon("[[-120,36],7,[-119,36]]")) == "B905 a point is not a pair of numbers");
    CHECK(said(polygon("[[-120],[-119,36],[-119,37]]")) == "B905 a point is not a pair of numbers");
    CHECK(said(polygon("[[-120,36],[-119,36],[-120,36]]")) ==
          "B905 a ring needs at least three different points");
    CHECK(said(R"({"type":"Point","coordinates":[10]})") ==
          "B905 a point is not a pair of numbers");
    for (const char* nothing : {"7", "null", "[]", "[[]]", "[[[]]]"}) // no line is there
        CHECK(said(std::string(R"({"type":"LineString","coordinates":)") + nothing + "}") ==
              "B902 no polygon in this file");
}

TEST_CASE("geometries stand within each other up to eight levels") {
    const auto nested = [](int levels) {
        std::string text = polygon(square);
        for (int i = 0; i < levels; ++i)
            text = R"({"type":"GeometryCollection","geometries":[)" + text + "]}";
        return read(text);
    };
    CHECK(nested(8).boundary);
    const Read deeper = nested(9);
    CHECK(!deeper.boundary);
    CHECK(deeper.diagnostics.all().at(0).title == "geometries are nested too deep");
}

TEST_CASE("a bad point is pointed at in any kind of geometry, behind whatever lists there are") {
    struct {
        std::string before, after; // the point
    } const cases[] = {
        {R"({"type":"LineString","coordinates":[[1,2],[3,4],)", "[\"a\",4]]}"},
        {R"({"type":"MultiLineString","coordinates":[[[1,2],[3,4]],[[5,6],)", "[\"a\",4]]]}"},
        {R"({"type":"MultiPoint","coordinates":[[1,2],[3,4],)", "[91,91]]}"},
        {R"({"type":"MultiPolygon","coordinates":[[)" + square + "],[[[-120,37],",
         "[-119,91],[-119,38]]]]}"},
        {R"({"type":"Polygon","coordinates":[)" + square + ",[[-119.995,36.002],",
         "[-119.995,91],[-119.99,36.003]]]}"},
        {R"({"type":"Feature","bbox":[1,2,3,4],"properties":{"tags":[1,[2]]},"geometry":)"
         R"({"type":"Polygon","bbox":[1,2],"coordinates" )"
         "\t:  [[",
         "[-120,91],[-119,36],[-119,37]]]}}"},
    };
    for (const auto& [before, after] : cases) {
        CAPTURE(before);
        const Read result = read(before + after);
        CHECK(!result.boundary);
        REQUIRE(result.diagnostics.all().size() == 1);
        CHECK(result.diagnostics.all()[0].primary.span.begin == before.size());
    }
    // Spelled with an escape the word is not found in the text: the whole file is pointed at.
    const Read escaped = read(R"({"type":"Polygon","co\u006frdinates":[[[91,91],[1,2],[3,4]]]})");
    REQUIRE(escaped.diagnostics.all().size() == 1);
    CHECK(escaped.diagnostics.all()[0].primary.span.begin == 0);
}

TEST_CASE("a place on the globe is one up to its limits") {
    const auto said = [](LonLat at) {
        const std::optional<lang::Diagnostic> fault = fault_of(at, {0, 0, 1});
        return fault ? std::string(lang::name_of(fault->code)) + " " +
                           (fault->notes.empty() ? "" : fault->notes[0].substr(0, 9))
                     : "";
    };
    CHECK(said({180, -80}) == "");
    CHECK(said({-180, 85}) == "");
    CHECK(said({180.5, 36}) == "B903 these loo");
    CHECK(said({100, -85.5}) == "B906 "); // no latitude of a field, whichever is taken for it
    CHECK(said({-55, 85.5}) == "B906 longitude");
    CHECK(said({100, 90}) == "B906 ");
    CHECK(said({90, 91}) == "B903 longitude"); // turned round it would be one
    CHECK(said({90.5, 91}) == "B903 these loo");
    CHECK(said({90, 181}) == "B903 these loo");
    CHECK(said({72, 73}) == "B903 longitude");
    CHECK(said({73, 73}) == "");
    CHECK(said({-56, -57}) == "B903 longitude");
    CHECK(said({-57, -57}) == "");
    CHECK(said({-56, -56}) == "");
    const auto wide = [](double east) {
        return fault_of(LonLatRing{{-90, 36}, {east, 36}, {0, 37}}, {0, 0, 1}).has_value();
    };
    CHECK_FALSE(wide(90));
    CHECK(wide(90.5));
}

TEST_CASE("a ring that runs the wrong way round is turned round, point by point") {
    const LonLatRing around = {{-120, 36}, {-119.99, 36}, {-119.99, 36.01}, {-120, 36.01}};
    const Read result =
        read(polygon("[[-120,36.01],[-119.99,36.01],[-119.99,36],[-120,36],[-120,36.01]],"
                     "[[-119.996,36.004],[-119.994,36.004],[-119.994,36.006]]"));
    REQUIRE(result.boundary);
    CHECK(result.boundary->polygons[0].outer == around);
    CHECK(result.boundary->polygons[0].holes.at(0) ==
          LonLatRing{{-119.994, 36.006}, {-119.994, 36.004}, {-119.996, 36.004}});
    CHECK(result.boundary->repairs ==
          std::vector<std::string>{"turned an outer ring that ran clockwise",
                                   "closed a ring whose last point is not its first",
                                   "turned a hole that ran counter-clockwise"});
}

TEST_CASE("a feature within a feature is a block of its own, and what is around it goes on") {
    const auto feature = [](const std::string& properties, const std::string& geometry) {
        return R"({"type":"Feature","properties":{)" + properties + R"(},"geometry":)" + geometry +
               "}";
    };
    const std::string line = R"({"type":"LineString","coordinates":[[-120,36],[-119,36]]})";
    const auto both = [](const std::string& first, const std::string& second) {
        return R"({"type":"GeometryCollection","geometries":[)" + first + "," + second + "]}";
    };
    const Read result =
        read(feature(R"("name":"Ranch")", both(feature(R"("name":"Pond","keep_off":"10 m")", line),
                                               both(polygon(square), line))));
    REQUIRE(result.boundary);
    CHECK(result.boundary->name == "Ranch");
    REQUIRE(result.boundary->blocks.size() == 1);
    CHECK(result.boundary->blocks[0].name == "Ranch");
    CHECK(result.boundary->blocks[0].number == 1);
    REQUIRE(result.boundary->marks.size() == 2);
    CHECK(result.boundary->marks[0].name == "Pond");
    CHECK(result.boundary->marks[0].keep_off == doctest::Approx(10));
    CHECK(result.boundary->marks[1].name == "Ranch");
    CHECK_FALSE(result.boundary->marks[1].keep_off);
}

TEST_CASE("of what a feature says, forty texts of two hundred letters are kept") {
    const auto read_with = [](const std::string& properties) {
        const Read result = read(R"({"type":"Feature","properties":)" + properties +
                                 R"(,"geometry":)" + polygon(square) + "}");
        REQUIRE(result.boundary);
        return result.boundary->blocks.at(0);
    };
    const std::string longest(200, 'x');
    const auto block =
        read_with(R"({"a":")" + longest + R"(","b":")" + longest + R"(y","c":1.5,"d":[1],"e":"",)" +
                  "\"" + longest + R"(":"f",")" + longest + R"(x":"g"})");
    REQUIRE(block.properties.size() == 3);
    CHECK(block.properties[0].value == longest);
    CHECK(block.properties[1].name == "c");
    CHECK(block.properties[1].value == "1.5");
    CHECK(block.properties[2].name == longest);
    std::string many = "{";
    for (int i = 0; i < 41; ++i)
        many += (i == 0 ? "\"p" : ",\"p") + std::to_string(i) + "\":1";
    CHECK(read_with(many + "}").properties.size() == 40);
    CHECK(read_with("[1]").properties.empty());
    CHECK(read_with(R"({"NAME":"","Name":7})").name == "7"); // an empty one is none
}

} // namespace boundary_test
