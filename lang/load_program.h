// The texts of one compilation, found and parsed, each once.
#pragma once

#include <optional>

#include "lang/check/resolve.h"
#include "lang/compile.h"
#include "lang/diag/diagnostic.h"
#include "lang/loader.h"
#include "lang/source/source_map.h"

namespace acre::lang {

// Reports F701-F706, I608, N214 and what parsing reports. Empty when there is no model to go on
// with.
std::optional<Program> load_program(const Request& request, Loader& loader, SourceMap& sources,
                                    Diagnostics& diagnostics);

} // namespace acre::lang
