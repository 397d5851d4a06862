#include "engine/field/layout.h"

#include <cmath>
#include <utility>

#include "engine/field/block_areas.h"
#include "engine/field/drive_lines.h"
#include "engine/field/layout_faults.h"

namespace acre::engine {

double Pull::length() const {
    return std::hypot(to.x - from.x, to.y - from.y);
}

lang::Outcome<Layout> lay_out(const PlaneField& field, const LayoutRequest& request) {
    if (!is_good(request))
        return bad_request(request);
    lang::Outcome<std::vector<PlanePolygon>> worked = worked_ground(field, request);
    if (!worked)
        return std::move(worked.said);
    return lay_out(field, std::move(*worked), request);
}

lang::Outcome<Layout> lay_out(const PlaneField& field, std::vector<PlanePolygon> worked,
                              const LayoutRequest& request) {
    if (!is_good(request))
        return bad_request(request);
    lang::Outcome<Layout> layout = drive_lines(worked, request);
    if (!layout)
        return layout;
    for (const PlanePolygon& polygon : field.polygons)
        if (layout->blocks.size() <= polygon.block)
            layout->blocks.resize(polygon.block + std::size_t{1});
    take_areas(field, worked, request, *layout);
    layout->worked = std::move(worked);
    return layout;
}

} // namespace acre::engine
