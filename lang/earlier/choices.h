// `==` and `!=` between a choice and one of its options, which `is` and `is not` say.
#pragma once

#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::lang {

// L835 with the edit, for each that a formula has.
void report_compared_choices(const Sheet& sheet, const SourceMap& sources,
                             Diagnostics& diagnostics);

} // namespace acre::lang
