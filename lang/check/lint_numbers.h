// Numbers and signs that are likely to be slips.
#pragma once

#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::lang {

// L822: money of thousands, with a comma, for one of a unit that never costs that much, as
// `$4,350/gal`. Nothing is said of money alone, nor for an acre, a day, a shift, a year, a ton or a
// thing that a model counts. L842: `+-` and `--`, which nobody means who writes them together.
void lint_numbers(const Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics);

} // namespace acre::lang
