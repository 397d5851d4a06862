#include "engine/questions/field.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

#include <fmt/format.h>

#include "engine/field/features.h"
#include "engine/field/keep_off.h"
#include "lang/units/convert.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

double acres(double square_meters) {
    return lang::convert(square_meters, "m^2", "ac");
}
double feet(double meters) {
    return lang::convert(meters, "m", "ft");
}

std::string kept_off(const BoundaryMark& mark) {
    const std::string name = mark.name.empty() ? "what has no name" : mark.name;
    return *mark.keep_off > 0 ? fmt::format("within {} of {}",
                                            lang::quantity_text(feet(*mark.keep_off), "ft"), name)
                              : "in " + name;
}

void measure(const LaidField& field, FieldAnswer& answer) {
    const Layout& layout = field.layout;
    answer.net = acres(layout.ripped_area);
    answer.doubled = acres(layout.doubled_area);
    answer.gross = acres(field.plane.outer_area);
    answer.holes = acres(field.plane.outer_area - field.plane.area);
    answer.unripped_headland = acres(layout.unripped.headland);
    answer.unripped_row_ends = acres(layout.unripped.row_ends);
    answer.unripped_gaps = acres(layout.unripped.gaps);
    answer.edge = feet(field.plane.perimeter);
    answer.middle = field.plane.middle;
    for (const BoundaryMark* mark : kept_off_near(field.boundary, field.plane))
        answer.kept_off.push_back(kept_off(*mark));
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
    answer.loops = layout.loops;
    answer.skip = layout.skip;
    answer.cells = layout.cells;
}

// The middle of the extent of a block's outer edges.
Point middle_of(const LaidField& field, std::size_t block) {
    Point low{1e300, 1e300};
    Point high{-1e300, -1e300};
    for (const PlanePolygon& polygon : field.plane.polygons)
        for (const Point& p : polygon.outer)
            if (polygon.block == block) {
                low = {std::min(low.x, p.x), std::min(low.y, p.y)};
                high = {std::max(high.x, p.x), std::max(high.y, p.y)};
            }
    return {(low.x + high.x) / 2, (low.y + high.y) / 2};
}

FieldBlock block_answer(const LaidField& field, std::size_t i) {
    const BlockLayout& is = field.layout.blocks[i];
    FieldBlock block;
    block.name = block_name(field.boundary, i);
    block.file = field.boundary.blocks[i].file;
    block.number = field.boundary.blocks[i].number;
    block.properties = field.boundary.blocks[i].properties;
    block.net = acres(is.ripped_area);
    block.gross = acres(is.gross);
    block.holes = acres(is.gross - is.ground);
    block.unripped_headland = acres(is.unripped.headland);
    block.unripped_row_ends = acres(is.unripped.row_ends);
    block.unripped_gaps = acres(is.unripped.gaps);
    block.travel = lang::convert(is.travel, "m", "mi");
    block.mean = is.pulls == 0 ? 0 : feet(is.travel / static_cast<double>(is.pulls));
    if (field.layout.ripping_time > 0) {
        block.ripping = is.ripping_time / 3600;
        block.turning = is.turning_time / 3600;
    }
    block.pulls = is.pulls;
    block.turns = is.turns;
    block.first_pull = is.first_pull;
    block.middle = middle_of(field, i);
    return block;
}

// Blocks are in the order in which their first pulls come.
void take_order(FieldAnswer& answer) {
    std::vector<FieldBlock*> driven;
    for (FieldBlock& block : answer.blocks)
        if (block.pulls > 0)
            driven.push_back(&block);
    std::ranges::sort(driven, {}, &FieldBlock::first_pull);
    for (std::size_t i = 0; i < driven.size(); ++i)
        driven[i]->order = i + 1;
}

void take_corners(const LaidField& field, FieldAnswer& answer) {
    std::size_t count = 0;
    for (const PlanePolygon& polygon : field.plane.polygons) {
        std::vector<FieldCorner> corners = field_corners(field.plane, polygon.outer);
        const std::size_t room = std::min(most_corners - count, corners.size());
        answer.corners_left_out += corners.size() - room;
        corners.resize(room);
        count += room;
        answer.corners.push_back(std::move(corners));
        answer.corners_of.push_back(polygon.block);
    }
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
                                to_globe(field.plane, pull.to), pull.row + 1, pull.block,
                                pull.point_row, feet(pull.length())});
    for (std::size_t i = 0; i < field.layout.blocks.size(); ++i)
        answer.blocks.push_back(block_answer(field, i));
    take_order(answer);
    take_corners(field, answer);
    answer.ground = field.plane.polygons;
    answer.worked = field.layout.worked;
    return answer;
}

std::string not_ripped_text(const std::vector<std::string>& kept_off) {
    std::string text;
    for (const std::string& one : kept_off)
        text += (text.empty() ? "Nothing is ripped " : ", ") + one;
    return text;
}

std::vector<FieldCorner> field_corners(const PlaneField& field, const PlaneRing& ring) {
    constexpr double bend = 0.5; // m
    std::vector<FieldCorner> corners;
    std::size_t last = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point a = ring[i == 0 ? ring.size() - 1 : last];
        const Point b = ring[i];
        const Point c = ring[i + 1 == ring.size() ? 0 : i + 1];
        const double length = std::hypot(c.x - a.x, c.y - a.y);
        const double aside =
            length > 0 ? std::abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)) / length
                       : std::hypot(b.x - a.x, b.y - a.y);
        if (aside < bend)
            continue;
        corners.push_back({b, to_globe(field, b)});
        last = i;
    }
    return corners;
}

lang::Outcome<FieldAnswer> ask(const FieldQuestion& question) {
    const auto sources = std::make_shared<lang::SourceMap>();
    lang::Said said{{}, sources};
    const std::optional<LaidField> field = lay_texts(question.boundaries, question.request,
                                                     question.heading, *sources, said.diagnostics);
    if (!field)
        return said;
    FieldAnswer answer = field_answer(*field);
    if (question.soils) {
        const std::optional<std::vector<SoilGround>> soils =
            lay_soils(*field, *question.soils, *sources, said.diagnostics);
        if (!soils)
            return said;
        for (const SoilGround& soil : *soils)
            answer.soils.push_back({soil.block, soil.soil, soil.feature, soil.properties,
                                    acres(soil.ground), acres(soil.ripped_area),
                                    lang::convert(soil.travel, "m", "mi"), soil.pulls});
    }
    return {std::move(answer), std::move(said)};
}

} // namespace acre::engine
