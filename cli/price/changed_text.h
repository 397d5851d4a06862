// What `--set` changes, on the page of `price`.
#pragma once

#include <string>

#include "engine/questions/changed.h"

namespace acre::cli {

// Begins with an empty line.
std::string changed_text(const engine::ChangedPrice& changed, bool color);

} // namespace acre::cli
