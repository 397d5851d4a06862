#include "engine/questions/field.h"

#include <memory>
#include <utility>

#include "lang/units/convert.h"

namespace acre::engine {
namespace {

double acres(double square_meters) {
    return lang::convert(square_meters, "m^2", "ac");
}
double feet(double meters) {
    return lang::convert(meters, "m", "ft");
}

void measure(const LaidField& field, FieldAnswer& answer) {
    const Layout& layout = field.layout;
    answer.net = acres(layout.ripped_area);
    answer.gross = acres(field.plane.outer_area);
    answer.holes = acres(field.plane.outer_area - field.plane.area);
    answer.unripped_headland = acres(layout.unripped.headland);
    answer.unripped_row_ends = acres(layout.unripped.row_ends);
    answer.unripped_gaps = acres(layout.unripped.gaps);
    answer.edge = feet(field.plane.perimeter);
    answer.heading = field.request.heading;
    answer.spacing = feet(field.request.spacing);
    answer.headland = feet(field.request.headland);
    answer.row_ends = feet(field.request.row_ends);
    answer.shortest = feet(layout.shortest);
    answer.mean = feet(layout.mean);
    answer.longest = feet(layout.longest);
    answer.travel = lang::convert(layout.travel, "m", "mi");
    answer.moving = lang::convert(layout.between, "m", "mi");
    answer.travel_per_acre = feet(layout.travel) / answer.net;
    if (layout.ripping_time > 0) {
        answer.ripping = layout.ripping_time / 3600;
        answer.turning = layout.turning_time / 3600;
        answer.between = layout.between_time / 3600;
        answer.pace = answer.net / (layout.time() / 3600);
    }
    answer.rows = layout.rows;
    answer.turns = layout.turns;
    answer.lifts = layout.lifts;
    answer.point_rows = layout.point_rows;
    answer.skip = layout.skip;
    answer.cells = layout.cells;
}

} // namespace

FieldAnswer field_answer(const LaidField& field) {
    FieldAnswer answer;
    answer.name = field.boundary.name;
    answer.file = field.file;
    measure(field, answer);
    for (const HeadingTime& row : field.ranked)
        answer.headings.push_back(
            {row.heading, row.time / 3600, row.time / field.ranked.front().time - 1, row.turns});
    answer.repairs = field.boundary.repairs;
    answer.pulls.reserve(field.layout.pulls.size());
    for (const Pull& pull : field.layout.pulls)
        answer.pulls.push_back({pull.from, pull.to, to_globe(field.plane, pull.from),
                                to_globe(field.plane, pull.to), pull.row + 1, pull.point_row,
                                feet(pull.length())});
    answer.ground = field.plane.polygons;
    answer.worked = field.layout.worked;
    return answer;
}

lang::Outcome<FieldAnswer> ask(const FieldQuestion& question) {
    const auto sources = std::make_shared<lang::SourceMap>();
    lang::Said said{{}, sources};
    const std::optional<LaidField> field = lay_text(question.file, question.text, question.request,
                                                    question.heading, *sources, said.diagnostics);
    if (!field)
        return said;
    return {field_answer(*field), std::move(said)};
}

} // namespace acre::engine
