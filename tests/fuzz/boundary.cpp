// A field boundary as GeoJSON, read, laid flat and laid out three ways. The first byte says how
// wide and which way.
#include <cmath>

#include "cli/field/report.h"
#include "tests/fuzz/properties.h"
#include "tests/fuzz/target.h"

namespace boundary_fuzz {

using namespace acre;

namespace {

void hold_layout(const engine::LaidField& laid) {
    const engine::Layout& layout = laid.layout;
    HOLDS(!layout.pulls.empty() && layout.pulls.size() <= engine::max_pulls);
    HOLDS(std::isfinite(layout.ripped_area) && layout.ripped_area >= 0);
    for (const double left :
         {layout.unripped.headland, layout.unripped.row_ends, layout.unripped.gaps})
        HOLDS(left >= -1e-6 * laid.plane.area - 1e-6);
    HOLDS(std::fabs(layout.ripped_area + layout.unripped.headland + layout.unripped.row_ends +
                    layout.unripped.gaps - laid.plane.area) <= 1e-6 * laid.plane.area + 1e-6);
    HOLDS(laid.plane.area > 0 && laid.plane.area <= laid.plane.outer_area * (1 + 1e-9));
    HOLDS(layout.ripped_area <= laid.plane.outer_area * 1.001 + 1);
    HOLDS(layout.rows >= 1 && layout.rows <= layout.pulls.size());
    HOLDS(layout.point_rows <= layout.pulls.size());
    double ripped = 0;
    for (const engine::Pull& pull : layout.pulls) {
        HOLDS(std::isfinite(pull.length()) && pull.length() > 0);
        // No pull is longer than all the edges together.
        HOLDS(pull.length() <= laid.plane.perimeter);
        ripped += pull.length();
    }
    HOLDS(std::fabs(layout.travel - ripped) <= 1e-9 * ripped);
    HOLDS(layout.shortest <= layout.mean * (1 + 1e-12) &&
          layout.mean <= layout.longest * (1 + 1e-12));
    HOLDS(std::isfinite(layout.between) && layout.between >= 0);
    HOLDS(std::isfinite(layout.time()));
}

} // namespace

ACREWRIGHT_TARGET(boundary, text) {
    const auto how = static_cast<unsigned char>(text.empty() ? 0 : text.front());
    if (!text.empty())
        text.remove_prefix(1);
    engine::LayoutRequest request;
    request.spacing = 1.5 + (how & 7) * 3;
    request.speed = 0.67;
    request.turn_time = 30;
    request.headland = (how & 8) != 0 ? 6 : 0;
    request.row_ends = (how & 16) != 0 ? 3 : 0;
    request.turn_diameter = (how & 32) != 0 ? 12 : 0;
    const double heading = (how & 31) * 11.0;
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const auto laid = engine::lay_texts({{"f.geojson", std::string(text), {}}}, request, heading,
                                        sources, diagnostics);
    fuzz::hold_diagnostics(diagnostics, sources);
    HOLDS(laid.has_value() == !diagnostics.has_errors());
    if (!laid)
        return;
    hold_layout(*laid);
    const engine::FieldAnswer field = engine::field_answer(*laid);
    HOLDS_FOR(fuzz::is_safe(cli::field_text(field, false)), cli::field_text(field, false));
    if (laid->layout.pulls.size() < 1'000) {
        lang::SourceMap again;
        const auto best = engine::lay_texts({{"f.geojson", std::string(text), {}}}, request,
                                            std::nullopt, again, diagnostics);
        if (best) // no pull may fit by another heading
            hold_layout(*best);
        fuzz::hold_json(cli::field_json(field));
        fuzz::hold_json(cli::field_lines(field));
        HOLDS(fuzz::is_safe(cli::field_svg(field)));
        HOLDS(fuzz::is_safe(cli::field_gpx(field)));
        HOLDS(fuzz::is_safe(cli::field_map(field)));
        HOLDS(fuzz::is_safe(cli::field_blocks(field, "soils.geojson", "blocks.values")));
    }
}

} // namespace boundary_fuzz
