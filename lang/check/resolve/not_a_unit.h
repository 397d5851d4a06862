// What an author may have meant by a word that stands where a unit stands and is none.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "lang/check/resolve.h"
#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"
#include "lang/syntax/ast.h"

namespace acre::lang::resolving {

// `8 ac/row_width`: a line of that name in the same module, which the `/` was to divide by. `3
// becuase "…"`: a word of the notation, misspelt. Empty when neither.
std::optional<Help> meant_instead(std::string_view word, Span span, const SourceMap& sources,
                                  const Modules& modules);

} // namespace acre::lang::resolving
