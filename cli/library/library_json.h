// Schema acrewright.library/1: the formulas of the library. Field by field in cli/README.md.
#pragma once

#include "cli/shared/reply.h"
#include "engine/questions/library.h"

namespace acre::cli {

Document library_json(const engine::LibraryAnswer& answer);

} // namespace acre::cli
