// Whether a workbook came out whole. Its library writes through files in the folder for temporary
// ones and does not look whether the disk had room for them.
#pragma once

#include <string_view>

#include "engine/workbook/workbook.h"

namespace acre::cli {

// Every part is well-formed as far as its tags go, every sheet has all its cells.
bool is_whole(std::string_view bytes, const engine::Workbook& book);

} // namespace acre::cli
