// field: a boundary file laid out in pulls.
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "cli/command.h"
#include "cli/field/report.h"
#include "cli/shared/arguments.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/job.h"
#include "engine/questions/quantity.h"

namespace acre::cli {
namespace {

struct FieldArguments {
    std::string boundary, lines, picture;
    std::string spacing = "7 ft", heading, headland = "0 ft", row_ends = "0 ft", offset,
                speed = "1.5 mi/h", turn = "0.7 min", diameter = "0 ft";
    double passes = 1;
    bool json = false;
};

// One length, angle, speed or time of the command line, in `unit`.
struct Read {
    const char* option;
    const std::string& text;
    const char* unit;
    double& to;
};

lang::Outcome<engine::FieldQuestion> question_of(const FieldArguments& arguments) {
    engine::FieldQuestion question;
    engine::LayoutRequest& request = question.request;
    std::vector<Read> all = {{"--spacing", arguments.spacing, "m", request.spacing},
                             {"--headland", arguments.headland, "m", request.headland},
                             {"--row-ends", arguments.row_ends, "m", request.row_ends},
                             {"--speed", arguments.speed, "m/s", request.speed},
                             {"--turn", arguments.turn, "s", request.turn_time},
                             {"--turn-circle", arguments.diameter, "m", request.turn_diameter}};
    if (!arguments.heading.empty() && arguments.heading != "best")
        all.push_back({"--heading", arguments.heading, "deg", question.heading.emplace()});
    if (!arguments.offset.empty())
        all.push_back({"--offset", arguments.offset, "m", request.first_offset.emplace()});
    for (const Read& one : all) {
        lang::Outcome<double> value =
            engine::QuantityReader(one.unit, std::string("`") + one.option + "`: ").read(one.text);
        if (!value)
            return std::move(value.said);
        one.to = *value;
    }
    request.passes_per_row = arguments.passes;
    return question;
}

Reply answer(const FieldArguments& arguments, bool color) {
    lang::Outcome<engine::FieldQuestion> question = question_of(arguments);
    if (!question)
        return std::move(question.said);
    lang::Outcome<std::string> text = read_named_file(arguments.boundary, max_data_bytes);
    if (!text)
        return std::move(text.said);
    question->file = arguments.boundary;
    question->text = std::move(*text);
    lang::Outcome<engine::FieldAnswer> field = engine::ask(*question);
    Reply reply(std::move(field.said));
    if (!field)
        return reply;
    if (!arguments.lines.empty() && !save(arguments.lines, field_lines(*field), reply))
        return reply;
    if (!arguments.picture.empty() && !save(arguments.picture, field_svg(*field), reply))
        return reply;
    if (arguments.json)
        reply.document = field_json(*field);
    else
        reply.page = field_text(*field, color);
    return reply;
}

} // namespace

Reply field_command(Words words, Console& console) {
    FieldArguments arguments;
    Arguments line(
        "field",
        "Lays out a field in pulls from its boundary file: net acres, pulls, turns, travel and "
        "time. Without --heading it finds the fastest heading and shows how much time others lose.",
        "acrewright field examples/fields/quillon-square.geojson --spacing '7 ft' "
        "--heading '0 deg'");
    line.positional(
        "BOUNDARY",
        "a GeoJSON file: a polygon or several, holes too, in WGS 84 longitude and latitude",
        arguments.boundary);
    line.option("--spacing", "LENGTH", "from pull to pull, or from tree row to tree row (7 ft)",
                arguments.spacing);
    line.option("--heading", "ANGLE", "of the pulls, clockwise from true north; or `best` (best)",
                arguments.heading);
    line.option("--headland", "LENGTH", "left along every edge (0 ft)", arguments.headland);
    line.option("--row-ends", "LENGTH", "left at both ends of each pull (0 ft)",
                arguments.row_ends);
    line.option("--offset", "LENGTH", "from the edge to the first pull (half a spacing)",
                arguments.offset);
    line.option("--passes", "COUNT", "times each line is driven (1)", arguments.passes);
    line.option("--speed", "SPEED", "in the ground and between pulls (1.5 mi/h)", arguments.speed);
    line.option("--turn", "TIME", "for each turn, besides the distance (0.7 min)", arguments.turn);
    line.option("--turn-circle", "LENGTH",
                "diameter that the machine needs to turn; if wider than the spacing, rows are "
                "skipped (0 ft)",
                arguments.diameter);
    line.option("--lines", "FILE", "writes the pulls as GeoJSON lines, for guidance equipment",
                arguments.lines);
    line.option("--picture", "FILE", "writes a picture as SVG", arguments.picture);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    return answer(arguments, console.color_out);
}

} // namespace acre::cli
