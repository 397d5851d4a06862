// The pulls as lines for guidance equipment: GeoJSON and GPX.
#include <cmath>
#include <cstddef>
#include <iterator>
#include <map>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "cli/field/report.h"
#include "cli/shared/json/value.h"
#include "cli/shared/safe_text.h"

namespace acre::cli {
namespace {

// Degrees to seven places: a centimeter on the ground.
double place(double degrees) {
    return std::round(degrees * 1e7) / 1e7;
}
Json line_of(const engine::FieldPull& pull) {
    return {{"type", "LineString"},
            {"coordinates",
             {{place(pull.from_place.lon), place(pull.from_place.lat)},
              {place(pull.to_place.lon), place(pull.to_place.lat)}}}};
}

// Which way a pull is driven: its heading or the opposite.
double driven(const engine::FieldPull& pull) {
    const double degrees =
        std::atan2(pull.to.x - pull.from.x, pull.to.y - pull.from.y) * 45 / std::atan(1.0);
    return std::round(std::fmod(degrees + 360, 360) * 100) / 100;
}

// The longest pull of each block: the line the others are parallel to.
std::vector<const engine::FieldPull*> guide_lines(const engine::FieldAnswer& field) {
    std::vector<const engine::FieldPull*> guides(field.blocks.size());
    for (const engine::FieldPull& pull : field.pulls)
        if (const engine::FieldPull*& guide = guides[pull.block];
            guide == nullptr || guide->feet < pull.feet)
            guide = &pull;
    return guides;
}

void gpx_point(std::string& out, const char* element, engine::LonLat at) {
    fmt::format_to(std::back_inserter(out), "<{} lat=\"{:.7f}\" lon=\"{:.7f}\"/>", element, at.lat,
                   at.lon);
}

} // namespace

std::string field_lines(const engine::FieldAnswer& field) {
    Json features = Json::array();
    const std::vector<const engine::FieldPull*> guides = guide_lines(field);
    for (std::size_t i = 0; i < guides.size(); ++i)
        if (guides[i] != nullptr)
            features.push_back({{"type", "Feature"},
                                {"properties",
                                 {{"kind", "A-B line"},
                                  {"block", field.blocks[i].name},
                                  {"heading_deg", driven(*guides[i])},
                                  {"spacing_ft", std::round(field.spacing * 100) / 100}}},
                                {"geometry", line_of(*guides[i])}});
    std::size_t count = 0;
    for (const engine::FieldPull& pull : field.pulls)
        features.push_back({{"type", "Feature"},
                            {"properties",
                             {{"kind", "pull"},
                              {"pull", ++count},
                              {"row", pull.row},
                              {"block", field.blocks[pull.block].name},
                              {"heading_deg", driven(pull)},
                              {"length_ft", std::round(pull.feet * 10) / 10}}},
                            {"geometry", line_of(pull)}});
    return Json({{"type", "FeatureCollection"}, {"features", std::move(features)}})
               .dump(-1, ' ', true, Json::error_handler_t::replace) +
           "\n";
}

// GPX 1.1 (Topografix, 2004): corners of the blocks are waypoints, the A-B line of a block is a
// route from A to B, each pull a track in driving order.
std::string field_gpx(const engine::FieldAnswer& field) {
    std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                      "<gpx version=\"1.1\" creator=\"Acrewright\" "
                      "xmlns=\"http://www.topografix.com/GPX/1/1\">\n";
    const auto name = [&](std::size_t block) { return markup_text(field.blocks[block].name); };
    std::map<std::size_t, std::size_t> corner;
    for (std::size_t ring = 0; ring < field.corners.size(); ++ring)
        for (const auto& [point, at] : field.corners[ring])
            fmt::format_to(std::back_inserter(out),
                           "<wpt lat=\"{:.7f}\" lon=\"{:.7f}\"><name>{}, corner {}</name></wpt>\n",
                           at.lat, at.lon, name(field.corners_of[ring]),
                           ++corner[field.corners_of[ring]]);
    const std::vector<const engine::FieldPull*> guides = guide_lines(field);
    for (std::size_t i = 0; i < guides.size(); ++i) {
        if (guides[i] == nullptr)
            continue;
        fmt::format_to(std::back_inserter(out),
                       "<rte><name>{}, A-B line</name><desc>heading {:.2f} deg, {:.2f} ft "
                       "apart</desc>",
                       name(i), driven(*guides[i]), field.spacing);
        gpx_point(out, "rtept", guides[i]->from_place);
        gpx_point(out, "rtept", guides[i]->to_place);
        out += "</rte>\n";
    }
    std::size_t count = 0;
    for (const engine::FieldPull& pull : field.pulls) {
        fmt::format_to(std::back_inserter(out), "<trk><name>{}, pull {}</name><trkseg>",
                       name(pull.block), ++count);
        gpx_point(out, "trkpt", pull.from_place);
        gpx_point(out, "trkpt", pull.to_place);
        out += "</trkseg></trk>\n";
    }
    return out + "</gpx>\n";
}

} // namespace acre::cli
