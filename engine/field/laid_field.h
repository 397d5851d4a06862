// A boundary with its pulls laid over it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/field/boundary.h"
#include "engine/field/headings.h"
#include "engine/field/known_boundaries.h"
#include "engine/field/layout.h"
#include "engine/field/plane.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::engine {

struct LaidField {
    std::string file; // as named; several with commas
    Boundary boundary;
    PlaneField plane;
    LayoutRequest request;
    Layout layout;
    std::vector<HeadingTime> ranked; // empty unless the best heading was looked for
};

// Lays boundaries out as one field. `heading` empty: the best one is looked for (needs a speed).
// `sources` gets the texts; `known`: what was read of them before, if anything. Empty: the
// diagnostics say why.
std::optional<LaidField> lay_texts(std::vector<BoundaryText> texts, LayoutRequest request,
                                   std::optional<double> heading, lang::SourceMap& sources,
                                   lang::Diagnostics& diagnostics,
                                   KnownBoundaries* known = nullptr);

} // namespace acre::engine
