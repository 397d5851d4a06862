// Lines of a model that no formula and no price asks for.
#pragma once

#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::lang {

// Of the model of the first price. L801: a line or a given without a label that nothing uses.
// L828: money beside costs that nothing asks for; what is worked out from the price is an answer,
// and a computed line that says why (`because`) is meant to be looked at.
void lint_unused(const Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics);

} // namespace acre::lang
