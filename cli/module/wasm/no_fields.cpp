// The module lays no boundary out: a job comes to it with what its layout gave
// (cli/module/texts.h), and a question that would need another layout is refused
// (cli/module/session.h). The texts of code pages stay in the program as well.
#include "engine/field/laid_field.h"
#include "engine/field/soils.h"
#include "lang/diag/code_page.h"
#include "lang/loader.h"

namespace acre::engine {

std::optional<LaidField> lay_texts(std::vector<BoundaryText> texts, LayoutRequest,
                                   std::optional<double>, lang::SourceMap&,
                                   lang::Diagnostics& diagnostics, KnownBoundaries*) {
    diagnostics.add(lang::cannot_load(lang::Code::F701, lang::ReferenceKind::Boundary,
                                      texts.front().name, "a page cannot lay out a boundary"));
    return std::nullopt;
}

// Asked of what was laid out, which here is nothing.
lang::Outcome<Layout> lay_out(const PlaneField&, const LayoutRequest&) {
    return {};
}

std::optional<SoilGround> ground_within(const LaidField&, BoundaryText, lang::SourceMap&,
                                        lang::Diagnostics&, KnownBoundaries&) {
    return std::nullopt;
}

} // namespace acre::engine

namespace acre::lang {

std::span<const std::string_view> code_page_texts() {
    return {};
}

} // namespace acre::lang
