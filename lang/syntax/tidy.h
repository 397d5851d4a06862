// The canonical layout of a text: two blanks a level, one blank around operators, columns of
// neighbours aligned, comments and the author's order kept. Tidying twice is tidying once, and the
// syntax tree is the same before and after.
#pragma once

#include <optional>
#include <string>

#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::lang {

// Empty when the text has syntax errors (they are reported): a text that cannot be read is left
// alone.
std::optional<std::string> tidy(const SourceMap& sources, FileId file, FileKind kind,
                                Diagnostics& diagnostics);

} // namespace acre::lang
