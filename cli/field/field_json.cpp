#include <cmath>

#include "cli/field/report.h"
#include "cli/shared/json/value.h"
#include "lang/units/convert.h"

namespace acre::cli {
namespace {

// Degrees to seven places: a centimetre on the ground.
double place(double degrees) {
    return std::round(degrees * 1e7) / 1e7;
}

Json quantity(double value, const char* from, const char* unit) {
    return {{"value", number(lang::convert(value, from, unit))}, {"unit", unit}};
}

} // namespace

std::string field_json(const LaidField& field) {
    const engine::Layout& layout = field.layout;
    Json out = {{"schema", "acrewright.field/1"},
                {"name", field.boundary.name},
                {"file", field.file},
                {"net", quantity(layout.net_area, "m^2", "ac")},
                {"gross", quantity(field.plane.outer_area, "m^2", "ac")},
                {"holes", quantity(field.plane.outer_area - field.plane.area, "m^2", "ac")},
                {"heading", {{"value", field.request.heading}, {"unit", "deg"}}},
                {"spacing", quantity(field.request.spacing, "m", "ft")},
                {"headland", quantity(field.request.headland, "m", "ft")},
                {"row_ends", quantity(field.request.row_ends, "m", "ft")},
                {"rows", layout.rows},
                {"pulls", layout.pulls.size()},
                {"mean", quantity(layout.mean, "m", "ft")},
                {"shortest", quantity(layout.shortest, "m", "ft")},
                {"longest", quantity(layout.longest, "m", "ft")},
                {"point_rows", layout.point_rows},
                {"turns", layout.turns},
                {"lifts", layout.lifts},
                {"skip", layout.skip},
                {"travel", quantity(layout.travel, "m", "mi")},
                {"between", quantity(layout.between, "m", "mi")}};
    if (layout.ripping_time > 0) {
        out["ripping"] = {{"value", layout.ripping_time / 3600}, {"unit", "h"}};
        out["turning"] = {{"value", layout.turning_time / 3600}, {"unit", "h"}};
    }
    if (!field.ranked.empty()) {
        out["headings"] = Json::array();
        for (const engine::HeadingTime& row : field.ranked)
            out["headings"].push_back(
                {{"heading", row.heading}, {"hours", row.time / 3600}, {"turns", row.turns}});
    }
    out["repairs"] = field.boundary.repairs;
    return document(out);
}

std::string field_lines(const LaidField& field) {
    Json features = Json::array();
    std::size_t count = 0;
    for (const engine::Pull& pull : field.layout.pulls) {
        const engine::LonLat from = to_globe(field.plane, pull.from);
        const engine::LonLat to = to_globe(field.plane, pull.to);
        features.push_back(
            {{"type", "Feature"},
             {"properties",
              {{"pull", ++count},
               {"row", pull.row + 1},
               {"length_ft", std::round(lang::convert(pull.length(), "m", "ft") * 10) / 10}}},
             {"geometry",
              {{"type", "LineString"},
               {"coordinates",
                {{place(from.lon), place(from.lat)}, {place(to.lon), place(to.lat)}}}}}});
    }
    return Json({{"type", "FeatureCollection"}, {"features", std::move(features)}}).dump() + "\n";
}

} // namespace acre::cli
