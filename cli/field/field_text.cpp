#include <cmath>

#include <fmt/format.h>

#include "cli/field/report.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::string rounded(double value, int digits, const char* unit) {
    const double power = std::pow(10, digits);
    return fmt::format("{} {}", lang::number_text(std::round(value * power) / power), unit);
}
std::string acres(double value) {
    return fmt::format("{:.2f} ac", value);
}
std::string hours(double value) {
    return fmt::format("{:.1f} h", value);
}
void ground(const engine::FieldAnswer& field, Table& table) {
    table.row({"net", acres(field.net), "the ground that is worked"});
    table.row({"gross", acres(field.gross),
               fmt::format("inside the boundary; its edge is {}", rounded(field.edge, 0, "ft"))});
    // Less than half a square meter is no hole.
    if (field.holes > 0.5 / 4046.8564224)
        table.row({"holes", acres(field.holes), "left out"});
    if (field.headland > 0)
        table.row({"headland", acres(field.headland_acres),
                   fmt::format("{} along every edge", rounded(field.headland, 1, "ft"))});
    if (field.row_ends > 0)
        table.row({"row ends", rounded(field.row_ends, 1, "ft"), "left at both ends of each pull"});
}

void pulls(const engine::FieldAnswer& field, Table& table) {
    table.row({"heading", fmt::format("{:.1f} deg", field.heading), "clockwise from true north"});
    table.row({"spacing", rounded(field.spacing, 2, "ft"), "from pull to pull"});
    table.row({"rows", count_text(field.rows), ""});
    table.row({"pulls", count_text(field.pulls.size()),
               fmt::format("mean {}, shortest {}, longest {}", rounded(field.mean, 0, "ft"),
                           rounded(field.shortest, 0, "ft"), rounded(field.longest, 0, "ft"))});
    if (field.lifts > 0)
        table.row(
            {"lifts", count_text(field.lifts), "over a hole, or out of the field and in again"});
    table.row({"point rows", count_text(field.point_rows),
               "short pulls that run out against a slanting edge"});
    table.row({"turns", count_text(field.turns),
               field.skip == 1 ? "into the next row, back and forth"
                               : fmt::format("{} rows over and {} back, land by land", field.skip,
                                             field.skip - 1)});
}

void travel(const engine::FieldAnswer& field, Table& table) {
    table.row({"ripped", rounded(field.travel, 2, "mi"), "with the shank in the ground"});
    table.row(
        {"", rounded(std::round(field.travel_per_acre), 0, "ft/ac"), "the same for each acre"});
    table.row({"moving", rounded(field.between, 2, "mi"), "from pull to pull, shank up"});
    if (!field.ripping)
        return;
    const double all = *field.ripping + *field.turning;
    table.row({"ripping", hours(*field.ripping),
               fmt::format("{:.1f} % of the time", 100 * *field.ripping / all)});
    table.row(
        {"turning", hours(*field.turning),
         fmt::format("{:.1f} %, moving from pull to pull included", 100 * *field.turning / all)});
    table.row({"pace", fmt::format("{:.3f} ac/h", *field.pace), "without stops"});
}

void heading_losses(const engine::FieldAnswer& field, std::string& out) {
    if (field.headings.empty())
        return;
    Table table({{"heading"}, {"time"}, {"more than the best"}, {"turns"}});
    const auto add = [&](const engine::FieldHeading& row) {
        table.row({fmt::format("{:.1f} deg", row.heading), hours(row.hours),
                   fmt::format("{:.1f} %", row.loss * 100), count_text(row.turns)});
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

} // namespace

std::string field_text(const engine::FieldAnswer& field, bool color) {
    std::string out = bold(wrap(lang::terminal_text(field.called()), page_width), color) + "\n";
    Table table({{"", Align::Left}, {""}, {"", Align::Left, true}});
    ground(field, table);
    pulls(field, table);
    travel(field, table);
    out += table.text(color);
    heading_losses(field, out);
    for (const std::string& repair : field.repairs)
        out +=
            "! " +
            wrap("The boundary was repaired: " + lang::terminal_text(repair) + ".", page_width, 2) +
            "\n";
    out += "\n" +
           wrap("Call the utility locating service before the shank goes in, and look for private "
                "lines, wells and overhead lines: a boundary file shows none of them.",
                page_width) +
           "\n";
    return out;
}

} // namespace acre::cli
