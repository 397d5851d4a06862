// Diagnostics for editors and other programs. Field by field in cli/README.md.
#pragma once

#include <string_view>

#include "cli/shared/reply.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::cli {

// One diagnostic: code, severity, title, its place, labels, notes, helps.
nlohmann::ordered_json diagnostic_json(const lang::Diagnostic& diagnostic,
                                       const lang::SourceMap& sources);

// Schema acrewright.codes/1: every code with its severity and what it means; `only`: one code, or a
// letter; empty: all.
Document codes_json(std::string_view only);

} // namespace acre::cli
