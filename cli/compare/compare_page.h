// A comparison as words, JSON, and curves.
#pragma once

#include <string>

#include "cli/shared/reply.h"
#include "engine/questions/compare/compare.h"

namespace acre::cli {

std::string compare_text(const engine::CompareAnswer& comparison, bool color);
// Schema acrewright.compare/2. Field by field in cli/README.md.
Document compare_json(const engine::CompareAnswer& comparison);
// Where columns cost the same, in lines of words; needs `flips`.
std::string flips_text(const engine::CompareAnswer& comparison);
// The price of each column over a given, for a terminal and as SVG; need `over`.
std::string over_text(const engine::CompareAnswer& comparison);
std::string over_svg(const engine::CompareAnswer& comparison);

// Columns are called A, B, C …
inline std::string column_letter(std::size_t column) {
    return std::string(1, static_cast<char>('A' + column % 26));
}

} // namespace acre::cli
