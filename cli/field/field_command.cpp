// field: a boundary file laid out in pulls.
#include <array>
#include <optional>
#include <string>

#include "cli/command.h"
#include "cli/exit_codes.h"
#include "cli/field/report.h"
#include "cli/shared/arguments.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/legacy.h"
#include "cli/shared/quantity.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

struct FieldArguments {
    std::string boundary, lines, picture;
    std::string spacing = "7 ft", heading, headland = "0 ft", row_ends = "0 ft", offset,
                speed = "1.5 mi/h", turn = "0.7 min", diameter = "0 ft";
    double passes = 1;
    bool json = false;
};

bool request_of(const FieldArguments& arguments, engine::LayoutRequest& request,
                std::optional<double>& heading, std::string& reason) {
    const auto read = [&](const char* option, const std::string& text, const char* unit,
                          double& to) {
        const std::optional<double> value = read_quantity(text, unit, reason);
        if (value)
            to = *value;
        else
            reason = std::string(option) + ": " + reason;
        return value.has_value();
    };
    if (!arguments.heading.empty() && arguments.heading != "best" &&
        !read("--heading", arguments.heading, "deg", heading.emplace()))
        return false;
    if (!arguments.offset.empty() &&
        !read("--offset", arguments.offset, "m", request.first_offset.emplace()))
        return false;
    request.passes_per_row = arguments.passes;
    return read("--spacing", arguments.spacing, "m", request.spacing) &&
           read("--headland", arguments.headland, "m", request.headland) &&
           read("--row-ends", arguments.row_ends, "m", request.row_ends) &&
           read("--speed", arguments.speed, "m/s", request.speed) &&
           read("--turn", arguments.turn, "s", request.turn_time) &&
           read("--turn-circle", arguments.diameter, "m", request.turn_diameter);
}

} // namespace

int field_command(Words words, Console& console) {
    FieldArguments arguments;
    Arguments line("field",
                   "Lays a field out in pulls from its boundary file: net acres, pulls, turns, "
                   "travel and time. Without --heading the fastest is "
                   "looked for and the loss of others shown.",
                   "acrewright field examples/fields/quillon-square.geojson --spacing '7 ft' "
                   "--heading '0 deg'");
    line.positional(
        "BOUNDARY",
        "a GeoJSON file: a polygon or several, holes too, in WGS 84 longitude and latitude",
        arguments.boundary);
    line.option("--spacing", "LENGTH", "from pull to pull, or from tree row to tree row (7 ft)",
                arguments.spacing);
    line.option("--heading", "ANGLE",
                "of the pulls, clockwise from true north; `best` looks for it (best)",
                arguments.heading);
    line.option("--headland", "LENGTH", "left along every edge (0 ft)", arguments.headland);
    line.option("--row-ends", "LENGTH", "left at both ends of each pull (0 ft)",
                arguments.row_ends);
    line.option("--offset", "LENGTH", "from the edge to the first pull (half a spacing)",
                arguments.offset);
    line.option("--passes", "COUNT", "times each line is driven (1)", arguments.passes);
    line.option("--speed", "SPEED", "in the ground and between pulls (1.5 mi/h)", arguments.speed);
    line.option("--turn", "TIME", "for each turn, on top of the way (0.7 min)", arguments.turn);
    line.option("--turn-circle", "LENGTH",
                "what the machine needs to turn; wider than the spacing: rows are skipped (0 ft)",
                arguments.diameter);
    line.option("--lines", "FILE", "writes the pulls as GeoJSON lines, for guidance equipment",
                arguments.lines);
    line.option("--picture", "FILE", "writes a picture as SVG", arguments.picture);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
    if (const auto code = line.read(words, console))
        return *code;
    engine::LayoutRequest request;
    std::optional<double> heading;
    std::string reason;
    if (!request_of(arguments, request, heading, reason)) {
        console.err += "acrewright: " + reason + "\n";
        return exit_usage;
    }
    lang::Outcome<std::string> boundary = read_named_file(arguments.boundary, max_data_bytes);
    if (!boundary)
        return report(boundary.said, console);
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const std::optional<LaidField> field = engine::lay_text(
        arguments.boundary, std::move(*boundary), request, heading, sources, diagnostics);
    if (!field)
        return report(diagnostics, sources, console);
    const std::array<std::pair<const std::string*, std::string>, 2> files = {
        std::pair{&arguments.lines, arguments.lines.empty() ? std::string() : field_lines(*field)},
        std::pair{&arguments.picture,
                  arguments.picture.empty() ? std::string() : field_svg(*field)}};
    for (const auto& [path, text] : files)
        if (!path->empty() && !save(*path, text, console))
            return exit_file;
    console.out += arguments.json ? field_json(*field) : field_text(*field, console.color_out);
    return exit_done;
}

} // namespace acre::cli
