// field: a boundary file laid out in pulls.
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "cli/command.h"
#include "cli/field/report.h"
#include "cli/shared/arguments.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/job.h"
#include "engine/field/boundary_reference.h"
#include "engine/questions/quantity.h"

namespace acre::cli {
namespace {

struct FieldArguments {
    std::vector<std::string> boundaries;
    std::string soils, lines, gpx, picture, map, blocks;
    std::string spacing = "7 ft", heading, headland = "0 ft", row_ends = "0 ft", offset,
                pass_spacing = "0 ft", speed = "1.5 mi/h", turn = "0.7 min", diameter = "0 ft";
    double passes = 1;
    bool json = false;
};

constexpr double m_per_ft = 0.3048, mps_per_mph = 0.44704; // both by definition

// One length, angle, speed or time of the command line. Errors name `unit`; so much of it is one of
// what is calculated in.
struct Read {
    const char* option;
    const std::string& text;
    const char* unit;
    double times;
    double& to;
};

lang::Outcome<engine::FieldQuestion> question_of(const FieldArguments& arguments) {
    engine::FieldQuestion question;
    engine::LayoutRequest& request = question.request;
    std::vector<Read> all = {
        {"--spacing", arguments.spacing, "ft", m_per_ft, request.spacing},
        {"--pass-spacing", arguments.pass_spacing, "ft", m_per_ft, request.pass_spacing},
        {"--headland", arguments.headland, "ft", m_per_ft, request.headland},
        {"--row-ends", arguments.row_ends, "ft", m_per_ft, request.row_ends},
        {"--speed", arguments.speed, "mi/h", mps_per_mph, request.speed},
        {"--turn", arguments.turn, "s", 1, request.turn_time},
        {"--turn-circle", arguments.diameter, "ft", m_per_ft, request.turn_diameter}};
    if (!arguments.heading.empty() && arguments.heading != "best")
        all.push_back({"--heading", arguments.heading, "deg", 1, question.heading.emplace()});
    if (!arguments.offset.empty())
        all.push_back(
            {"--offset", arguments.offset, "ft", m_per_ft, request.first_offset.emplace()});
    for (const Read& one : all) {
        lang::Outcome<double> value =
            engine::QuantityReader(one.unit, std::string("`") + one.option + "`: ").read(one.text);
        if (!value)
            return std::move(value.said);
        one.to = *value * one.times;
    }
    request.passes_per_row = arguments.passes;
    return question;
}

lang::Outcome<engine::BoundaryText> read_boundary(const std::string& named) {
    engine::BoundaryReference reference = engine::split_reference(named);
    lang::Outcome<std::string> text = read_named_file(reference.file, max_data_bytes);
    if (!text)
        return std::move(text.said);
    return engine::BoundaryText{std::move(reference.file), std::move(*text),
                                std::move(reference.feature)};
}

// False: a file could not be written, and the reply says why.
bool save_all(const FieldArguments& arguments, const engine::FieldAnswer& field, Reply& reply) {
    const auto saved = [&](const std::string& path, auto&& text) {
        return path.empty() || save(path, text(), reply);
    };
    return saved(arguments.lines, [&] { return field_lines(field); }) &&
           saved(arguments.gpx, [&] { return field_gpx(field); }) &&
           saved(arguments.picture, [&] { return field_svg(field); }) &&
           saved(arguments.map, [&] { return field_map(field); }) && saved(arguments.blocks, [&] {
               return field_blocks(field, arguments.soils, arguments.blocks);
           });
}

Reply answer(const FieldArguments& arguments, bool color) {
    lang::Outcome<engine::FieldQuestion> question = question_of(arguments);
    if (!question)
        return std::move(question.said);
    std::size_t bytes = 0;
    for (const std::string& named : arguments.boundaries) {
        lang::Outcome<engine::BoundaryText> boundary = read_boundary(named);
        if (!boundary)
            return std::move(boundary.said);
        bytes += boundary->text.size();
        if (bytes > engine::max_boundaries_bytes)
            return lang::placeless(lang::Code::B907,
                                   fmt::format("the boundaries come to more than {} MiB",
                                               engine::max_boundaries_bytes >> 20U),
                                   {}, {"thin them out: a point every few feet is enough"});
        question->boundaries.push_back(std::move(*boundary));
    }
    if (!arguments.soils.empty()) {
        lang::Outcome<engine::BoundaryText> soils = read_boundary(arguments.soils);
        if (!soils)
            return std::move(soils.said);
        question->soils = std::move(*soils);
    }
    lang::Outcome<engine::FieldAnswer> field = engine::ask(*question);
    Reply reply(std::move(field.said));
    if (!field || !save_all(arguments, *field, reply))
        return reply;
    if (arguments.json)
        reply.document = field_json(*field);
    else
        reply.page = field_text(*field, color);
    return reply;
}

void declare_outputs(Arguments& line, FieldArguments& arguments) {
    line.option("--lines", "FILE",
                "writes the pulls as GeoJSON lines, for guidance equipment, with an A-B line for "
                "each block",
                arguments.lines);
    line.option("--gpx", "FILE", "writes the same lines and the corners of the blocks as GPX",
                arguments.gpx);
    line.option("--picture", "FILE", "writes a picture as SVG", arguments.picture);
    line.option("--map", "FILE",
                "writes a page for the crew to print: picture, order of work, corners",
                arguments.map);
    line.option("--blocks", "FILE",
                "writes the blocks, or their soils, as `block` lines for a job, or as a .values "
                "file that a job takes by `with`",
                arguments.blocks);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
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
    line.positionals("BOUNDARY",
                     "a GeoJSON file, or one feature of it by name or number as in "
                     "ranch.geojson#2; several are blocks of one field",
                     arguments.boundaries);
    line.option("--soils", "FILE", "a GeoJSON map of soils: acres and distance by soil",
                arguments.soils);
    line.option("--spacing", "LENGTH", "from pull to pull, or from tree row to tree row (7 ft)",
                arguments.spacing);
    line.option("--heading", "ANGLE", "of the pulls, clockwise from true north; or `best` (best)",
                arguments.heading);
    line.option("--headland", "LENGTH", "left along every edge (0 ft)", arguments.headland);
    line.option("--row-ends", "LENGTH", "left at both ends of each pull (0 ft)",
                arguments.row_ends);
    line.option("--offset", "LENGTH", "from the edge to the first pull (half a spacing)",
                arguments.offset);
    line.option("--passes", "COUNT", "lines beside each other that rip a row (1)",
                arguments.passes);
    line.option("--pass-spacing", "LENGTH", "between those lines (0 ft: spread evenly)",
                arguments.pass_spacing);
    line.option("--speed", "SPEED", "in the ground and between pulls (1.5 mi/h)", arguments.speed);
    line.option("--turn", "TIME", "for each turn, besides the distance (0.7 min)", arguments.turn);
    line.option("--turn-circle", "LENGTH",
                "diameter of the circle that the machine turns in; no turn is tighter: rows are "
                "skipped, or it drives loops (0 ft)",
                arguments.diameter);
    declare_outputs(line, arguments);
    if (auto reply = line.read(words))
        return std::move(*reply);
    return answer(arguments, console.color_out);
}

} // namespace acre::cli
