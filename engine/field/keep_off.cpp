#include "engine/field/keep_off.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "engine/field/clipper_paths.h"
#include "engine/field/clipping.h"
#include "engine/field/degrees.h"
#include "engine/field/extent.h"
#include "lang/units/catalog.h"
#include "lang/units/convert.h"

namespace acre::engine {
namespace {

constexpr double longest = 1'000;        // ft; more is a slip
constexpr double least_taken = 0.01;     // m²; less is what clipping rounds
constexpr double farthest_mark = 60'000; // m from the middle, as of the field itself

bool is_within_reach(const PlaneRing& ring) {
    return std::all_of(
        ring.begin(), ring.end(),
        [](const Point& p) { return std::hypot(p.x, p.y) <= farthest_mark; });
}

// The ground as far as `distance` from the mark.
void take_room(const BoundaryMark& mark, const PlaneRing& ring, std::vector<PlanePolygon>& room) {
    constexpr double arc = 0.01 / clipper_unit; // a circle is round to a centimetre
    const double distance = *mark.keep_off / clipper_unit;
    ClipperLib::PolyTree tree;
    if (mark.closed && distance == 0) {
        room.push_back({ring, {}, 0});
        return;
    }
    ClipperLib::ClipperOffset offset(2.0, arc);
    offset.AddPath(to_clipper(ring), ClipperLib::jtRound,
                   mark.closed ? ClipperLib::etClosedPolygon : ClipperLib::etOpenRound);
    offset.Execute(tree, distance);
    collect(tree, 0, room);
}

lang::Diagnostic too_ragged_to_keep_off(lang::Span at) {
    return boundary_fault(lang::Code::B907, "what is kept off has too many points", at, "",
                          "thin it out: a point every few feet is enough");
}

bool refuse(lang::Diagnostic said, lang::Diagnostics& diagnostics) {
    diagnostics.add(std::move(said));
    return false;
}

} // namespace

std::optional<double> meters_to_keep_off(std::string_view text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc())
        return std::nullopt;
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    text.remove_prefix(std::min(text.find_first_not_of(' '), text.size()));
    static const lang::UnitCatalog units;
    lang::UnitError unknown{};
    const std::optional<lang::Unit> is = lang::read_unit(text, units, unknown);
    const std::optional<lang::Unit> feet = lang::read_unit("ft", units, unknown);
    if (text.empty() || !is || is->dim != feet->dim)
        return std::nullopt;
    const double wide = lang::conversion(*is, *feet).apply(value);
    if (!(wide >= 0 && wide <= longest))
        return std::nullopt;
    return lang::convert(wide, "ft", "m");
}

lang::Diagnostic no_distance(std::string_view text, lang::Span span) {
    return boundary_fault(lang::Code::B905, fmt::format("`keep_off` is no distance: `{}`", text),
                          span, "",
                          "from 0 ft to 1,000 ft, with the unit, as in \"keep_off\": \"25 ft\"");
}

bool keep_off(const Boundary& boundary, PlaneField& field, lang::FileId file,
              lang::Diagnostics& diagnostics) {
    std::vector<PlanePolygon> room;
    std::size_t points = 0;
    for (const BoundaryMark& mark : boundary.marks) {
        if (!mark.keep_off)
            continue;
        points += mark.points.size();
        if (points > most_keep_off_points)
            return refuse(too_ragged_to_keep_off(mark.at), diagnostics);
        const PlaneRing ring = flat_ring(mark.points, field.middle);
        if (!is_within_reach(ring))
            return refuse(boundary_fault(lang::Code::B906,
                                         "what is kept off goes too far from the field", mark.at,
                                         "more than 60 km", "cut it off near the field"),
                          diagnostics);
        take_room(mark, ring, room);
    }
    if (room.empty())
        return true;
    std::map<std::uint32_t, std::vector<PlanePolygon>> blocks;
    for (PlanePolygon& polygon : field.polygons)
        blocks[polygon.block].push_back(std::move(polygon));
    field.polygons.clear();
    std::size_t clipped = 0;
    for (const auto& [number, block] : blocks) {
        clipped += points_of(block) + points_of(room);
        if (points_of(block) + points_of(room) > most_clipped_points ||
            clipped > 50 * most_clipped_points)
            return refuse(too_ragged_to_keep_off({file, 0, 1}), diagnostics);
        const std::vector<PlanePolygon> rest = ground_without(block, room, number);
        const double taken = plane_area(block) - plane_area(rest);
        const bool touched = taken > least_taken;
        if (touched) {
            field.area -= taken;
            field.kept_off[number] = outer_area(block) - outer_area(rest);
        }
        const std::vector<PlanePolygon>& left = touched ? rest : block;
        field.polygons.insert(field.polygons.end(), left.begin(), left.end());
    }
    if (!field.polygons.empty())
        return true;
    return refuse(boundary_fault(lang::Code::B909, "what is kept off leaves nothing of the field",
                                 {file, 0, 1}, "", ""),
                  diagnostics);
}

std::vector<const BoundaryMark*> kept_off_near(const Boundary& boundary, const PlaneField& field) {
    std::vector<const BoundaryMark*> near;
    std::vector<Extent> ground; // as drawn: of a block that lies in a pond nothing is left
    for (const BoundaryMark& mark : boundary.marks) {
        if (!mark.keep_off)
            continue;
        if (ground.empty())
            for (const PlanePolygon& polygon : flat_polygons(boundary, field.middle))
                ground.emplace_back().add(polygon.outer);
        Extent room;
        room.add(flat_ring(mark.points, field.middle), *mark.keep_off);
        if (std::any_of(ground.begin(), ground.end(),
                        [&](const Extent& one) { return one.meets(room); }))
            near.push_back(&mark);
    }
    return near;
}

} // namespace acre::engine
