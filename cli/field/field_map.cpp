// The map for the crew: one page to print.
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "cli/field/report.h"
#include "cli/shared/html_page.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/figures.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::string latitude(double degrees) {
    return fmt::format("{:.6f} {}", std::abs(degrees), degrees < 0 ? "S" : "N");
}
std::string longitude(double degrees) {
    return fmt::format("{:.6f} {}", std::abs(degrees), degrees < 0 ? "W" : "E");
}

std::string order_of_work(const engine::FieldAnswer& field) {
    HtmlTable table(
        {"order", "block", "acres ripped", "pulls", "mean pull", "first pull starts at"}, 2);
    for (std::size_t order = 1; order <= field.blocks.size(); ++order)
        for (const engine::FieldBlock& block : field.blocks) {
            if (block.order != order)
                continue;
            const engine::LonLat at = field.pulls[block.first_pull].from_place;
            table.row({count_text(order), block.name, fixed_quantity(block.net, 2, "ac"),
                       count_text(block.pulls), rounded_quantity(block.mean, 0, "ft"),
                       latitude(at.lat) + ", " + longitude(at.lon)});
        }
    return std::move(table).finish();
}

std::string corners(const engine::FieldAnswer& field) {
    HtmlTable table({"block", "corner", "latitude", "longitude"}, 2);
    std::map<std::size_t, std::size_t> corner;
    for (std::size_t ring = 0; ring < field.corners.size(); ++ring) {
        const std::size_t block = field.corners_of[ring];
        for (const engine::FieldCorner& one : field.corners[ring])
            table.row({field.blocks[block].name, count_text(++corner[block]),
                       latitude(one.place.lat), longitude(one.place.lon)});
    }
    return std::move(table).finish();
}

} // namespace

std::string field_map(const engine::FieldAnswer& field) {
    std::string out = html_head(field.called());
    out += fmt::format("<h1>{}</h1>\n", markup_text(field.called()));
    out += fmt::format(
        "<p>{} ripped in {} pulls {} apart, heading {} or straight back. The picture has north "
        "up; the number before a name is the order of work, those at the corners are in the table "
        "below.</p>\n",
        fixed_quantity(field.net, 2, "ac"), count_text(field.pulls.size()),
        rounded_quantity(field.spacing, 2, "ft"), fixed_quantity(field.heading, 1, "deg"));
    out += field_svg(field, Corners::Numbered);
    out += "<h2>Order of work</h2>\n" + order_of_work(field);
    out += "<h2>Corners</h2>\n<p>Degrees, WGS 84, from the boundary file: a map is no survey, and "
           "the fence decides.</p>\n" +
           corners(field);
    if (field.corners_left_out > 0)
        out += fmt::format("<p>{} more corners are in the boundary file.</p>\n",
                           count_text(field.corners_left_out));
    if (!field.kept_off.empty())
        out += "<p>" + markup_text(engine::not_ripped_text(field.kept_off)) +
               ". Mark it on the ground before the work begins.</p>\n";
    out += fmt::format("<p>Call the utility locating service before the shank goes in, and look "
                       "for private lines, wells and overhead lines: this map shows {} of them. "
                       "Stay off wet ground, and off swales and wetlands without a written "
                       "clearance.</p>\n",
                       field.kept_off.empty() ? "none" : "only what was drawn");
    return out + html_foot();
}

} // namespace acre::cli
