// Givens that look like shares and carry no `%`.
#pragma once

#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::lang {

// L827: a bare number in a given that is named like a share, as `given burden = 28 "payroll
// burden"`, or that a formula takes from one, as in `1 - lost`. A given declared `: 1` means it.
void lint_shares(const Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics);

} // namespace acre::lang
