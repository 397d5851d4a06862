// The formulas of the library as a list, and one of them with its examples.
#pragma once

#include <string>

#include "engine/questions/library.h"

namespace acre::cli {

std::string library_text(const engine::LibraryAnswer& answer, bool color);
std::string formula_text(const engine::Formula& formula, bool color);

} // namespace acre::cli
