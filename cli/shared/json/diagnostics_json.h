// Schema acrewright.check/1: diagnostics for editors and other programs. Field by field in
// cli/README.md.
#pragma once

#include <string>
#include <vector>

#include "cli/shared/reply.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::cli {

// One diagnostic: code, severity, title, its place, labels, notes, helps.
nlohmann::ordered_json diagnostic_json(const lang::Diagnostic& diagnostic, const lang::SourceMap& sources);

struct CheckedFile {
    std::string path;
    const lang::Diagnostics* diagnostics = nullptr;
    const lang::SourceMap* sources = nullptr;
};

std::string diagnostics_json(const std::vector<CheckedFile>& files);

// Schema acrewright.codes/1: every code with its severity and what it means; `only`: one code, or a
// letter; empty: all.
std::string codes_json(std::string_view only);

} // namespace acre::cli
