// How much of the ground its pulls rip.
#pragma once

#include <span>
#include <vector>

#include "engine/field/cut_lines.h"

namespace acre::engine {

// m² of the ground within the strips of the segments, exact for straight edges. Segments are by
// track, then x; strips of one track, and of neighboring ones, do not overlap, so nothing is
// counted twice.
double ripped_area(const std::vector<PlanePolygon>& ground, const std::vector<Track>& tracks,
                   std::span<const Segment> segments, const Turned& turned);

} // namespace acre::engine
