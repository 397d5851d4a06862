#include "engine/field/laid_field.h"

#include <utility>

#include <fmt/format.h>

#include "lang/units/convert.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

void tell(LayoutFault fault, const LayoutRequest& request, lang::FileId file,
          lang::Diagnostics& diagnostics) {
    const auto feet = [](double metres) {
        return fmt::format("{:.4g} ft", lang::convert(metres, "m", "ft"));
    };
    lang::Diagnostic diagnostic{lang::Code::B909, {}, {{file, 0, 1}, ""}, {}, {}, {}};
    switch (fault) {
    case LayoutFault::NoPullFits:
        diagnostic.title =
            fmt::format("no pull fits the field at {} from pull to pull", feet(request.spacing));
        diagnostic.helps.push_back(
            {"closer pulls, a first pull nearer to the edge, shorter row ends, or another heading",
             {}});
        break;
    case LayoutFault::NothingLeft:
        diagnostic.title =
            fmt::format("a headland of {} leaves nothing of the field", feet(request.headland));
        break;
    case LayoutFault::TooManyPulls:
        diagnostic.code = lang::Code::B910;
        diagnostic.title = fmt::format("more than {} pulls", lang::number_text(max_pulls));
        diagnostic.helps.push_back({fmt::format("the spacing is {}", feet(request.spacing)), {}});
        break;
    default:
        diagnostic.code = lang::Code::B910;
        diagnostic.title =
            fmt::format("a layout at {} from pull to pull cannot be", feet(request.spacing));
        diagnostic.notes.push_back("spacing must be above zero; headland, row ends, speed and "
                                   "turns must not be negative; one pass a row at least");
        break;
    }
    diagnostics.add(std::move(diagnostic));
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
    LayoutFault fault = LayoutFault::None;
    std::optional<Layout> layout = lay_out(*plane, request, fault);
    if (!layout) {
        tell(fault, request, file, diagnostics);
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
