#include "engine/field/laid_field.h"

#include <utility>

#include <fmt/format.h>

#include "engine/field/drive_lines.h"
#include "engine/field/features.h"
#include "lang/diag/outcome.h"
#include "lang/units/convert.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

// What the layout said of a field without a text, at the beginning of the boundary's.
void tell(const lang::Said& said, lang::FileId file, lang::Diagnostics& diagnostics) {
    for (lang::Diagnostic diagnostic : said.diagnostics.all()) {
        diagnostic.primary.span = {file, 0, 1};
        diagnostics.add(std::move(diagnostic));
    }
}

struct ReadTexts {
    Boundary boundary;
    std::string file; // names
    lang::FileId first = lang::no_file;
};

std::optional<ReadTexts> read_texts(std::vector<BoundaryText> texts, lang::SourceMap& sources,
                                    lang::Diagnostics& diagnostics, KnownBoundaries& known) {
    ReadTexts read;
    std::vector<Boundary> boundaries;
    std::size_t points = 0;
    for (BoundaryText& text : texts) {
        const std::string name = text.name;
        const std::string feature = text.feature;
        const KnownBoundaries::Known* is = known.read(std::move(text), sources, diagnostics);
        if (is == nullptr)
            return std::nullopt;
        const lang::FileId file = is->file;
        read.first = boundaries.empty() ? file : read.first;
        Boundary boundary = is->boundary;
        if (!feature.empty() && !take_feature(boundary, feature, file, diagnostics))
            return std::nullopt;
        for (BoundaryBlock& block : boundary.blocks)
            block.file = name;
        for (const BoundaryPolygon& polygon : boundary.polygons)
            points += polygon.outer.size();
        if (points > max_boundary_vertices) {
            diagnostics.add({lang::Code::B907,
                             fmt::format("the boundaries have more than {} points together",
                                         lang::number_text(max_boundary_vertices)),
                             {{file, 0, 1}, ""},
                             {},
                             {},
                             {}});
            return std::nullopt;
        }
        read.file += (boundaries.empty() ? "" : ", ") + name;
        boundaries.push_back(std::move(boundary));
    }
    read.boundary = joined(std::move(boundaries));
    return read;
}

} // namespace

std::optional<LaidField> lay_texts(std::vector<BoundaryText> texts, LayoutRequest request,
                                   std::optional<double> heading, lang::SourceMap& sources,
                                   lang::Diagnostics& diagnostics, KnownBoundaries* known) {
    KnownBoundaries none;
    std::optional<ReadTexts> read =
        read_texts(std::move(texts), sources, diagnostics, known != nullptr ? *known : none);
    if (!read)
        return std::nullopt;
    const lang::FileId file = read->first;
    std::optional<PlaneField> plane = lay_flat(read->boundary, sources, file, diagnostics);
    if (!plane)
        return std::nullopt;
    lang::Outcome<std::vector<PlanePolygon>> worked = worked_ground(*plane, request);
    if (!worked) {
        tell(worked.said, file, diagnostics);
        return std::nullopt;
    }
    LaidField laid;
    if (heading) {
        request.heading = *heading;
    } else {
        lang::Outcome<std::vector<HeadingTime>> ranked = rank_headings(*plane, *worked, request);
        if (!ranked) {
            tell(ranked.said, file, diagnostics);
            return std::nullopt;
        }
        laid.ranked = std::move(*ranked);
        if (!laid.ranked.empty())
            request.heading = laid.ranked.front().heading;
    }
    lang::Outcome<Layout> layout = lay_out(*plane, std::move(*worked), request);
    if (!layout) {
        tell(layout.said, file, diagnostics);
        return std::nullopt;
    }
    laid.file = std::move(read->file);
    laid.boundary = std::move(read->boundary);
    if (plane->holes_touched)
        laid.boundary.repairs.emplace_back("took holes off along the edges that they touch");
    if (plane->shared > 0)
        laid.boundary.repairs.push_back(
            fmt::format("gave {} that two blocks have along a fence to the first of them",
                        lang::quantity_text(lang::convert(plane->shared, "m^2", "ft^2"), "ft^2")));
    laid.plane = std::move(*plane);
    laid.request = request;
    laid.layout = std::move(*layout);
    return laid;
}

} // namespace acre::engine
