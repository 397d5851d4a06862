#include "engine/field/boundary.h"

#include <string>

#include <doctest/doctest.h>

#include "lang/diag/codes.h"

namespace boundary_test {

using namespace acre;

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

} // namespace boundary_test
