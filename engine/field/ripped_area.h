// How much of the ground its pulls rip.
#pragma once

#include <vector>

#include "engine/field/cut_lines.h"

namespace acre::engine {

// m² of the ground within half a spacing to either side of a segment, exact for straight edges.
// Strips of one row, and of neighboring rows, do not overlap, so nothing is counted twice.
double ripped_area(const std::vector<PlanePolygon>& ground, const Lines& lines, double spacing,
                   const Turned& turned);

} // namespace acre::engine
