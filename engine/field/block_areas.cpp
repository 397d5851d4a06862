#include "engine/field/block_areas.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>

#include "engine/field/cut_lines.h"
#include "engine/field/doubled_strips.h"
#include "engine/field/ripped_area.h"

namespace acre::engine {
namespace {

std::vector<std::vector<PlanePolygon>> by_block(const std::vector<PlanePolygon>& polygons,
                                                std::size_t blocks) {
    std::vector<std::vector<PlanePolygon>> result(blocks);
    for (const PlanePolygon& polygon : polygons)
        result[polygon.block].push_back(polygon);
    return result;
}

struct Ripped { // m²
    std::vector<double> by_block;
    double doubled = 0;
};

Ripped ripped_by_block(const std::vector<std::vector<PlanePolygon>>& worked,
                       const std::vector<PlanePolygon>& all, const LayoutRequest& request) {
    Ripped ripped{std::vector<double>(worked.size(), 0.0)};
    const Turned turned(request.heading);
    const lang::Outcome<Lines> lines = cut_lines(all, request, turned);
    if (!lines)
        return ripped;
    std::vector<std::vector<Segment>> segments(worked.size());
    for (const Segment& segment : lines->segments)
        segments[segment.block].push_back(segment);
    for (std::size_t block = 0; block < worked.size(); ++block)
        ripped.by_block[block] = ripped_area(worked[block], lines->tracks, segments[block], turned);
    const Strips doubled = doubled_strips(lines->tracks, lines->segments);
    ripped.doubled = ripped_area(all, doubled.tracks, doubled.segments, turned);
    return ripped;
}

} // namespace

// The plane's own areas differ from the geodesic ones by parts in ten million; the share of the
// field is what counts.
void take_areas(const PlaneField& field, const std::vector<PlanePolygon>& worked,
                const LayoutRequest& request, Layout& layout) {
    const double scale = field.area / plane_area(field.polygons);
    const std::vector<std::vector<PlanePolygon>> grounds =
        by_block(field.polygons, layout.blocks.size());
    const std::vector<std::vector<PlanePolygon>> insides = by_block(worked, layout.blocks.size());
    LayoutRequest through = request;
    through.row_ends = 0;
    const Ripped most = ripped_by_block(insides, worked, through);
    const Ripped ripped = request.row_ends > 0 ? ripped_by_block(insides, worked, request) : most;
    layout.doubled_area = scale * ripped.doubled;
    for (std::size_t i = 0; i < layout.blocks.size(); ++i) {
        BlockLayout& block = layout.blocks[i];
        const auto kept_off = field.kept_off.find(static_cast<std::uint32_t>(i));
        block.gross = scale * (outer_area(grounds[i]) +
                               (kept_off == field.kept_off.end() ? 0 : kept_off->second));
        block.ground = scale * plane_area(grounds[i]);
        const double inside = request.headland > 0 ? scale * plane_area(insides[i]) : block.ground;
        const double to_the_edge = std::min(scale * most.by_block[i], inside);
        block.ripped_area = std::min(scale * ripped.by_block[i], to_the_edge);
        block.unripped = {block.ground - inside, to_the_edge - block.ripped_area,
                          inside - to_the_edge};
        layout.ripped_area += block.ripped_area;
        layout.unripped.headland += block.unripped.headland;
        layout.unripped.row_ends += block.unripped.row_ends;
        layout.unripped.gaps += block.unripped.gaps;
    }
}

} // namespace acre::engine
