// From a boundary file to a field laid out, and from a job's `field` lines to the values they set.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "cli/field/report.h"
#include "cli/shared/console.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::cli {

// Reads the file and lays it out. `heading` empty: the best one is looked for (needs a speed).
// Empty: the diagnostics say why.
std::optional<LaidField> lay_file(const std::string& path, engine::LayoutRequest request,
                                  std::optional<double> heading, lang::SourceMap& sources,
                                  lang::Diagnostics& diagnostics);

// The same from a text that is at hand; `path` is how it is named.
std::optional<LaidField> lay_text(const std::string& path, std::string text,
                                  engine::LayoutRequest request, std::optional<double> heading,
                                  lang::SourceMap& sources, lang::Diagnostics& diagnostics);

} // namespace acre::cli
