// Forms that were removed because there are two ways to say a thing. For one version they are read
// still, warned of with the edit that renews them, and `tidy` applies it; the next one refuses
// them.
#pragma once

#include <string>
#include <vector>

#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"
#include "lang/syntax/layout.h"

namespace acre::lang {

struct OldForm {
    Span span;               // what is written
    std::string replacement; // by what it is replaced
    std::string title;       // of the warning
    std::string write;       // what stands there then
};

// Those that can be told from the text alone, in the order they stand in. The text has been read
// without errors.
std::vector<OldForm> old_forms(std::string_view text, const LogicalLines& layout, FileId file);

// L835 for each of them.
void report_old_forms(const SourceMap& sources, FileId file, FileKind kind,
                      Diagnostics& diagnostics);

// The text with all of them renewed; a text with errors stays as it is, and they are told later.
std::string renewed(std::string_view name, std::string_view text, FileKind kind);

} // namespace acre::lang
