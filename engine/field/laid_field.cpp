#include "engine/field/laid_field.h"

#include <utility>

#include "lang/diag/outcome.h"

namespace acre::engine {
namespace {

// What the layout said of a field without a text, at the beginning of the boundary's.
void tell(const lang::Said& said, lang::FileId file, lang::Diagnostics& diagnostics) {
    for (lang::Diagnostic diagnostic : said.diagnostics.all()) {
        diagnostic.primary.span = {file, 0, 1};
        diagnostics.add(std::move(diagnostic));
    }
}

} // namespace

std::optional<LaidField> lay_text(const std::string& path, std::string text, LayoutRequest request,
                                  std::optional<double> heading, lang::SourceMap& sources,
                                  lang::Diagnostics& diagnostics) {
    const lang::FileId file = sources.add(path, std::move(text));
    std::optional<Boundary> boundary = read_boundary(sources, file, diagnostics);
    if (!boundary)
        return std::nullopt;
    std::optional<PlaneField> plane = lay_flat(*boundary, sources, file, diagnostics);
    if (!plane)
        return std::nullopt;
    LaidField laid;
    if (heading) {
        request.heading = *heading;
    } else {
        laid.ranked = rank_headings(*plane, request);
        if (!laid.ranked.empty())
            request.heading = laid.ranked.front().heading;
    }
    lang::Outcome<Layout> layout = lay_out(*plane, request);
    if (!layout) {
        tell(layout.said, file, diagnostics);
        return std::nullopt;
    }
    laid.file = path;
    laid.boundary = std::move(*boundary);
    laid.plane = std::move(*plane);
    laid.request = request;
    laid.layout = std::move(*layout);
    return laid;
}

} // namespace acre::engine
