#include <cmath>

#include "cli/field/report.h"
#include "cli/shared/json/value.h"

namespace acre::cli {
namespace {

// Degrees to seven places: a centimeter on the ground.
double place(double degrees) {
    return std::round(degrees * 1e7) / 1e7;
}

Json quantity(double value, const char* unit) {
    return {{"value", number(value)}, {"unit", unit}};
}

} // namespace

Document field_json(const engine::FieldAnswer& field) {
    Json out = {{"schema", "acrewright.field/2"},
                {"name", field.name},
                {"file", field.file},
                {"net", quantity(field.net, "ac")},
                {"gross", quantity(field.gross, "ac")},
                {"holes", quantity(field.holes, "ac")},
                {"unripped",
                 {{"headland", quantity(field.unripped_headland, "ac")},
                  {"row_ends", quantity(field.unripped_row_ends, "ac")},
                  {"gaps", quantity(field.unripped_gaps, "ac")}}},
                {"coverage", number(field.net / (field.gross - field.holes))},
                {"heading", quantity(field.heading, "deg")},
                {"spacing", quantity(field.spacing, "ft")},
                {"headland", quantity(field.headland, "ft")},
                {"row_ends", quantity(field.row_ends, "ft")},
                {"rows", field.rows},
                {"pulls", field.pulls.size()},
                {"mean", quantity(field.mean, "ft")},
                {"shortest", quantity(field.shortest, "ft")},
                {"longest", quantity(field.longest, "ft")},
                {"point_rows", field.point_rows},
                {"turns", field.turns},
                {"lifts", field.lifts},
                {"skip", field.skip},
                {"cells", field.cells},
                {"travel", quantity(field.travel, "mi")},
                {"moving", quantity(field.moving, "mi")}};
    if (field.ripping) {
        out["ripping"] = quantity(*field.ripping, "h");
        out["turning"] = quantity(*field.turning, "h");
        out["between"] = quantity(*field.between, "h");
        out["pace"] = quantity(*field.pace, "ac/h");
    }
    if (!field.headings.empty()) {
        out["headings"] = Json::array();
        for (const engine::FieldHeading& row : field.headings)
            out["headings"].push_back({{"heading", row.heading},
                                       {"hours", row.hours},
                                       {"turns", row.turns},
                                       {"loss", row.loss}});
    }
    out["repairs"] = field.repairs;
    return answered(std::move(out));
}

std::string field_lines(const engine::FieldAnswer& field) {
    Json features = Json::array();
    std::size_t count = 0;
    for (const engine::FieldPull& pull : field.pulls)
        features.push_back({{"type", "Feature"},
                            {"properties",
                             {{"pull", ++count},
                              {"row", pull.row},
                              {"length_ft", std::round(pull.feet * 10) / 10}}},
                            {"geometry",
                             {{"type", "LineString"},
                              {"coordinates",
                               {{place(pull.from_place.lon), place(pull.from_place.lat)},
                                {place(pull.to_place.lon), place(pull.to_place.lat)}}}}}});
    return Json({{"type", "FeatureCollection"}, {"features", std::move(features)}}).dump() + "\n";
}

} // namespace acre::cli
