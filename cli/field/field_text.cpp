#include <cmath>

#include <fmt/format.h>

#include "cli/field/report.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/units/convert.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::string in(double metres, const char* unit, int digits) {
    const double value = lang::convert(metres, "m", unit);
    return fmt::format(
        "{} {}", lang::number_text(std::round(value * std::pow(10, digits)) / std::pow(10, digits)),
        unit);
}
std::string acres(double square_metres) {
    return fmt::format("{:.2f} ac", lang::convert(square_metres, "m^2", "ac"));
}
std::string hours(double seconds) {
    return fmt::format("{:.1f} h", seconds / 3600);
}

void heading_losses(const LaidField& field, std::string& out) {
    if (field.ranked.empty())
        return;
    const double best = field.ranked.front().time;
    Table table({{"heading"}, {"time"}, {"lost against the best"}, {"turns"}});
    const auto add = [&](const engine::HeadingTime& row) {
        table.row({fmt::format("{:.1f} deg", row.heading), hours(row.time),
                   fmt::format("{:.1f} %", (row.time / best - 1) * 100),
                   std::to_string(row.turns)});
    };
    add(field.ranked.front());
    for (const double wanted : {0.0, 30.0, 60.0, 90.0, 120.0, 150.0})
        for (const engine::HeadingTime& row : field.ranked)
            if (row.heading == wanted) {
                add(row);
                break;
            }
    out += "\nHeadings\n" + table.text();
}

} // namespace

std::string field_text(const LaidField& field, bool color) {
    const engine::Layout& layout = field.layout;
    std::string out =
        bold(lang::terminal_text(field.boundary.name.empty() ? field.file : field.boundary.name),
             color) +
        "\n";
    Table table({{"", Align::Left}, {""}, {"", Align::Left, true}});
    table.row({"net", acres(layout.net_area), "the ground that is worked"});
    table.row({"gross", acres(field.plane.outer_area),
               fmt::format("inside the boundary; edge {}", in(field.plane.perimeter, "ft", 0))});
    if (field.plane.outer_area - field.plane.area > 0.5)
        table.row({"holes", acres(field.plane.outer_area - field.plane.area), "left out"});
    if (field.request.headland > 0)
        table.row({"headland", acres(field.plane.area - layout.net_area),
                   fmt::format("{} along every edge", in(field.request.headland, "ft", 1))});
    if (field.request.row_ends > 0)
        table.row(
            {"row ends", in(field.request.row_ends, "ft", 1), "left at both ends of every pull"});
    table.row(
        {"heading", fmt::format("{:.1f} deg", field.request.heading), "clockwise from true north"});
    table.row({"spacing", in(field.request.spacing, "ft", 2), "from pull to pull"});
    table.row({"rows", std::to_string(layout.rows), ""});
    table.row({"pulls", std::to_string(layout.pulls.size()),
               fmt::format("mean {}, shortest {}, longest {}", in(layout.mean, "ft", 0),
                           in(layout.shortest, "ft", 0), in(layout.longest, "ft", 0))});
    if (layout.lifts > 0)
        table.row({"lifts", std::to_string(layout.lifts),
                   "over holes, or out of the field and in again"});
    table.row({"point rows", std::to_string(layout.point_rows),
               "short pulls that run out against a slanting edge"});
    table.row({"turns", std::to_string(layout.turns),
               layout.skip == 1 ? "into the next row, back and forth"
                                : fmt::format("{} rows over and {} back, land by land", layout.skip,
                                              layout.skip - 1)});
    table.row({"travel", in(layout.travel, "mi", 2),
               fmt::format("in the ground; {} from pull to pull", in(layout.between, "mi", 2))});
    table.row({"travel",
               fmt::format("{:.0f} ft/ac", lang::convert(layout.travel, "m", "ft") /
                                               lang::convert(layout.net_area, "m^2", "ac")),
               "in the ground"});
    if (layout.ripping_time > 0) {
        const double all = layout.ripping_time + layout.turning_time;
        table.row({"in the ground", hours(layout.ripping_time),
                   fmt::format("{:.1f} % of the time", 100 * layout.ripping_time / all)});
        table.row({"turning", hours(layout.turning_time),
                   fmt::format("{:.1f} %, the way between pulls counted",
                               100 * layout.turning_time / all)});
        table.row(
            {"pace",
             fmt::format("{:.3f} ac/h", lang::convert(layout.net_area, "m^2", "ac") / (all / 3600)),
             "without stops"});
    }
    out += table.text(color);
    heading_losses(field, out);
    for (const std::string& repair : field.boundary.repairs)
        out += "! " + wrap("The boundary was mended: " + repair + ".", page_width, 2) + "\n";
    out += "\n" +
           wrap("Call the utility locating service before the shank goes in, and look for private "
                "lines, wells and overhead lines: a boundary "
                "file shows none of them.",
                page_width) +
           "\n";
    return out;
}

} // namespace acre::cli
