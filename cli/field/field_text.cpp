#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/field/report.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::string acres(double value) {
    return fixed_quantity(value, 2, "ac");
}
std::string hours(double value) {
    return fixed_quantity(value, 1, "h");
}
std::string degrees(double value) {
    return fixed_quantity(value, 1, "deg");
}
std::string left_out(const engine::FieldAnswer& field) {
    constexpr std::size_t most_listed = 6;
    std::string out = "left out";
    for (std::size_t i = 0; i < std::min(field.kept_off.size(), most_listed); ++i)
        out += (i == 0 ? ": " : ", ") + lang::terminal_text(field.kept_off[i]);
    return out + (field.kept_off.size() > most_listed ? ", …" : "");
}
void ground(const engine::FieldAnswer& field, Table& table) {
    table.row({"ripped", acres(field.net), "what is billed"});
    table.row({"gross", acres(field.gross),
               fmt::format("inside the boundary; its edge is {}",
                           rounded_quantity(field.edge, 0, "ft"))});
    const engine::LonLat middle = field.middle;
    table.row({"middle", "",
               fmt::format("{:.4f} {}, {:.4f} {}: does the field lie there?", std::abs(middle.lat),
                           middle.lat < 0 ? "S" : "N", std::abs(middle.lon),
                           middle.lon < 0 ? "W" : "E")});
    // Less than half a square meter is no hole.
    if (field.holes > 0.5 / 4046.8564224)
        table.row({"holes", acres(field.holes), left_out(field)});
    if (field.headland > 0)
        table.row({"headland", acres(field.unripped_headland),
                   fmt::format("not ripped: {} along every edge",
                               rounded_quantity(field.headland, 1, "ft"))});
    if (field.row_ends > 0)
        table.row({"row ends", acres(field.unripped_row_ends),
                   fmt::format("not ripped: {} at both ends of each pull",
                               rounded_quantity(field.row_ends, 1, "ft"))});
    if (field.unripped_gaps >= 0.005)
        table.row({"gaps", acres(field.unripped_gaps),
                   "not ripped: where no pull comes within half a spacing"});
}

void pulls(const engine::FieldAnswer& field, Table& table) {
    table.row({"heading", degrees(field.heading), "clockwise from true north"});
    table.row({"spacing", rounded_quantity(field.spacing, 2, "ft"), "from pull to pull"});
    table.row({"rows", count_text(field.rows), ""});
    table.row(
        {"pulls", count_text(field.pulls.size()),
         fmt::format("mean {}, shortest {}, longest {}", rounded_quantity(field.mean, 0, "ft"),
                     rounded_quantity(field.shortest, 0, "ft"),
                     rounded_quantity(field.longest, 0, "ft"))});
    if (field.lifts > 0)
        table.row({"lifts", count_text(field.lifts),
                   "over a hole or out of the field: can it be crossed?"});
    table.row({"point rows", count_text(field.point_rows),
               "short pulls that run out against a slanting edge"});
    if (field.cells > 1)
        table.row({"cells", count_text(field.cells), "pieces ripped one after another"});
    std::string how = field.skip == 1 ? "into the next row, back and forth"
                                      : fmt::format("{} rows over and {} back, land by land",
                                                    field.skip + 1, field.skip);
    if (field.loops > 0)
        how += fmt::format("; {} in a loop", count_text(field.loops));
    table.row({"turns", count_text(field.turns), std::move(how)});
}

void travel(const engine::FieldAnswer& field, Table& table) {
    table.row({"ripped", rounded_quantity(field.travel, 2, "mi"), "with the shank in the ground"});
    table.row({"", rounded_quantity(field.travel_per_acre, 0, "ft/ac"), "the same for each acre"});
    table.row({"moving", rounded_quantity(field.moving, 2, "mi"), "from pull to pull, shank up"});
    if (!field.ripping)
        return;
    const double all = *field.ripping + *field.turning + *field.between;
    table.row(
        {"ripping", hours(*field.ripping), percent_text(*field.ripping / all) + " of the time"});
    table.row({"turning", hours(*field.turning),
               percent_text(*field.turning / all) + ", moving from pull to pull included"});
    if (field.cells > 1)
        table.row({"between", hours(*field.between),
                   percent_text(*field.between / all) + ", from piece to piece"});
    table.row({"pace", fixed_quantity(*field.pace, 3, "ac/h"), "without stops"});
}

void heading_losses(const engine::FieldAnswer& field, std::string& out) {
    if (field.headings.empty())
        return;
    Table table({{"heading"}, {"time"}, {"more than the best"}, {"turns"}});
    const auto add = [&](const engine::FieldHeading& row) {
        table.row({degrees(row.heading), hours(row.hours), percent_text(row.loss),
                   count_text(row.turns)});
    };
    add(field.headings.front());
    for (const double wanted : {0.0, 30.0, 60.0, 90.0, 120.0, 150.0})
        for (const engine::FieldHeading& row : field.headings)
            if (row.heading == wanted) {
                add(row);
                break;
            }
    out += "\nHeadings\n" + table.text();
}

void blocks(const engine::FieldAnswer& field, std::string& out) {
    if (field.blocks.size() < 2)
        return;
    Table table(
        {{"block", Align::Left, true}, {"order"}, {"ripped"}, {"pulls"}, {"mean"}, {"time"}});
    for (const engine::FieldBlock& block : field.blocks)
        table.row({lang::terminal_text(block.name), block.order == 0 ? "" : count_text(block.order),
                   acres(block.net), count_text(block.pulls), rounded_quantity(block.mean, 0, "ft"),
                   block.ripping ? hours(*block.ripping + *block.turning) : ""});
    out += "\nBlocks\n" + table.text();
}

void soils(const engine::FieldAnswer& field, std::string& out) {
    if (field.soils.empty())
        return;
    Table table(
        {{"block", Align::Left, true}, {"soil", Align::Left, true}, {"ripped"}, {"distance"}});
    for (const engine::FieldSoil& soil : field.soils)
        table.row({lang::terminal_text(field.blocks[soil.block].name),
                   soil.soil.empty() ? "not on the map" : lang::terminal_text(soil.soil),
                   acres(soil.net), rounded_quantity(soil.travel, 2, "mi")});
    out += "\nAcres by soil\n" + table.text();
}

} // namespace

std::string field_text(const engine::FieldAnswer& field, bool color) {
    std::string out = heading(lang::terminal_text(field.called()), color);
    Table table({{"", Align::Left}, {""}, {"", Align::Left, true}});
    ground(field, table);
    pulls(field, table);
    travel(field, table);
    out += table.text(color);
    blocks(field, out);
    soils(field, out);
    heading_losses(field, out);
    for (const std::string& repair : field.repairs)
        out += paragraph("The boundary was repaired: " + lang::terminal_text(repair) + ".", "! ");
    out += "\n" +
           paragraph(fmt::format("Call the utility locating service before the shank goes in, and "
                                 "look for private lines, wells and overhead lines: a boundary "
                                 "file shows {} of them.",
                                 field.kept_off.empty() ? "none" : "only what was drawn"),
                     "");
    return out;
}

} // namespace acre::cli
