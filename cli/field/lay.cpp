#include "cli/field/lay.h"

#include <utility>

#include <fmt/format.h>

#include "cli/shared/files/read_text.h"
#include "cli/shared/job.h"
#include "cli/shared/quantity.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

void tell(engine::LayoutFault fault, const engine::LayoutRequest& request, lang::FileId file,
          lang::Diagnostics& diagnostics) {
    const auto feet = [](double metres) {
        return fmt::format("{:.4g} ft", convert(metres, "m", "ft"));
    };
    lang::Diagnostic diagnostic{lang::Code::B909, {}, {{file, 0, 1}, ""}, {}, {}, {}};
    switch (fault) {
    case engine::LayoutFault::NoPullFits:
        diagnostic.title =
            fmt::format("no pull fits the field at {} from pull to pull", feet(request.spacing));
        diagnostic.helps.push_back(
            {"closer pulls, a first pull nearer to the edge, shorter row ends, or another heading",
             {}});
        break;
    case engine::LayoutFault::NothingLeft:
        diagnostic.title =
            fmt::format("a headland of {} leaves nothing of the field", feet(request.headland));
        break;
    case engine::LayoutFault::TooManyPulls:
        diagnostic.code = lang::Code::B910;
        diagnostic.title = fmt::format("more than {} pulls", lang::number_text(engine::max_pulls));
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

std::optional<LaidField> lay_text(const std::string& path, std::string text,
                                  engine::LayoutRequest request, std::optional<double> heading,
                                  lang::SourceMap& sources, lang::Diagnostics& diagnostics) {
    const lang::FileId file = sources.add(path, std::move(text));
    std::optional<engine::Boundary> boundary = engine::read_boundary(sources, file, diagnostics);
    if (!boundary)
        return std::nullopt;
    std::optional<engine::PlaneField> plane = lay_flat(*boundary, sources, file, diagnostics);
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
    engine::LayoutFault fault = engine::LayoutFault::None;
    std::optional<engine::Layout> layout = lay_out(*plane, request, fault);
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

std::optional<LaidField> lay_file(const std::string& path, engine::LayoutRequest request,
                                  std::optional<double> heading, lang::SourceMap& sources,
                                  lang::Diagnostics& diagnostics) {
    std::string text;
    if (!read_named_file(path, text, diagnostics, max_data_bytes))
        return std::nullopt;
    return lay_text(path, std::move(text), request, heading, sources, diagnostics);
}

} // namespace acre::cli
