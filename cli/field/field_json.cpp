#include <algorithm>
#include <cmath>

#include "cli/field/report.h"
#include "cli/shared/json/value.h"

namespace acre::cli {
namespace {

Json quantity(double value, const char* unit) {
    return {{"value", number(value)}, {"unit", unit}};
}

// Degrees to a centimetre.
Json middle_degrees(double degrees) {
    return number(std::round(degrees * 1e7) / 1e7);
}

// Per cent of the ground: by one pull, by more than one, by none.
Json covered(const engine::FieldAnswer& field) {
    const double ground = field.gross - field.holes;
    const double any = 100 * field.net / ground;
    const double twice = 100 * field.doubled / ground;
    return {{"once", number(any - twice)},
            {"twice", number(twice)},
            {"missed", number(std::max(0.0, 100 - any))}};
}

Json block_json(const engine::FieldBlock& block) {
    Json out = {{"name", block.name},
                {"file", block.file},
                {"feature", block.number},
                {"order", block.order},
                {"net", quantity(block.net, "ac")},
                {"gross", quantity(block.gross, "ac")},
                {"holes", quantity(block.holes, "ac")},
                {"unripped",
                 {{"headland", quantity(block.unripped_headland, "ac")},
                  {"row_ends", quantity(block.unripped_row_ends, "ac")},
                  {"gaps", quantity(block.unripped_gaps, "ac")}}},
                {"pulls", block.pulls},
                {"turns", block.turns},
                {"mean", quantity(block.mean, "ft")},
                {"travel", quantity(block.travel, "mi")}};
    if (block.ripping) {
        out["ripping"] = quantity(*block.ripping, "h");
        out["turning"] = quantity(*block.turning, "h");
    }
    out["properties"] = Json::object();
    for (const engine::BoundaryProperty& property : block.properties)
        out["properties"][property.name] = property.value;
    return out;
}

void soils_json(const engine::FieldAnswer& field, Json& out) {
    if (field.soils.empty())
        return;
    out["soils"] = Json::array();
    for (const engine::FieldSoil& soil : field.soils)
        out["soils"].push_back({{"block", field.blocks[soil.block].name},
                                {"soil", soil.soil},
                                {"ground", quantity(soil.ground, "ac")},
                                {"net", quantity(soil.net, "ac")},
                                {"travel", quantity(soil.travel, "mi")},
                                {"pulls", number(soil.pulls)}});
}

} // namespace

Document field_json(const engine::FieldAnswer& field) {
    Json out = {{"schema", "acrewright.field/2"},
                {"name", field.name},
                {"file", field.file},
                {"middle",
                 {{"latitude", middle_degrees(field.middle.lat)},
                  {"longitude", middle_degrees(field.middle.lon)}}},
                {"net", quantity(field.net, "ac")},
                {"gross", quantity(field.gross, "ac")},
                {"holes", quantity(field.holes, "ac")},
                {"unripped",
                 {{"headland", quantity(field.unripped_headland, "ac")},
                  {"row_ends", quantity(field.unripped_row_ends, "ac")},
                  {"gaps", quantity(field.unripped_gaps, "ac")}}},
                {"coverage", number(field.net / (field.gross - field.holes))},
                {"covered", covered(field)},
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
                {"loops", field.loops},
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
    out["blocks"] = Json::array();
    for (const engine::FieldBlock& block : field.blocks)
        out["blocks"].push_back(block_json(block));
    soils_json(field, out);
    if (!field.kept_off.empty())
        out["kept_off"] = field.kept_off;
    out["repairs"] = field.repairs;
    return answered(std::move(out));
}

} // namespace acre::cli
