// A boundary with its pulls laid over it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/field/boundary.h"
#include "engine/field/layout.h"
#include "engine/field/plane.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::engine {

struct LaidField {
    std::string file; // as named
    Boundary boundary;
    PlaneField plane;
    LayoutRequest request;
    Layout layout;
    std::vector<HeadingTime> ranked; // empty unless the best heading was looked for
};

// Lays the text of a boundary out. `path` is how it is named; `heading` empty: the best one is
// looked for (needs a speed). `sources` gets the text. Empty: the diagnostics say why.
std::optional<LaidField> lay_text(const std::string& path, std::string text, LayoutRequest request,
                                  std::optional<double> heading, lang::SourceMap& sources,
                                  lang::Diagnostics& diagnostics);

} // namespace acre::engine
