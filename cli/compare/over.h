// Two ways to look along a given: where columns cost the same, and the price of each over a range.
#pragma once

#include <string>

#include "cli/compare/columns.h"
#include "cli/shared/console.h"

namespace acre::cli {

// Appends where each column costs the same as the first one, per unit of the price. False: no such
// given; said in `console`.
bool flip_text(const Comparison& comparison, const std::string& given, std::string& out,
               Console& console);

// "run 300 ft..2,600 ft": the curves in text and as SVG. False: not understood, or no such given;
// said in `console`.
bool over_text(const Comparison& comparison, const std::string& over, std::string& out,
               std::string& svg, Console& console);

} // namespace acre::cli
