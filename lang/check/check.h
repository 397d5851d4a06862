// The unit check: each line against its declared unit, by itself, so an error never causes another.
#pragma once

#include <optional>

#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"

namespace acre::lang {

// Reports U3xx, S124, and G401/G402 for loops. Empty when anything was reported by this or an
// earlier stage.
std::optional<CheckedSheet> check(Sheet sheet, const SourceMap& sources, Diagnostics& diagnostics);

// Warnings L80x, and I611 for an allowed range that is empty. Values are not known here; L802 and
// L806 are reported where they are (constant bounds only).
void lint(const CheckedSheet& sheet, const SourceMap& sources, Diagnostics& diagnostics);

} // namespace acre::lang
