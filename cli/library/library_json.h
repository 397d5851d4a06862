// Schema acrewright.library/1: the formulas of the library. Field by field in cli/README.md.
#pragma once

#include <string>
#include <vector>

#include "cli/library/library_entries.h"

namespace acre::cli {

std::string library_json(const std::vector<LibraryEntry>& entries);

} // namespace acre::cli
