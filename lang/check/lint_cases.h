// Cases of a `when` that are never reached.
#pragma once

#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::lang {

// L826: a condition that an earlier case has taken already, word for word or by its bound, as
// `when hours > 500 h then … when hours > 1,000 h then …`.
void lint_cases(const Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics);

} // namespace acre::lang
