// Where the strips of a layout lie over each other.
#pragma once

#include <span>
#include <vector>

#include "engine/field/cut_lines.h"

namespace acre::engine {

struct Strips { // none over another; segments by track, then x
    std::vector<Track> tracks;
    std::vector<Segment> segments;
};

// What at least two strips of the segments cover: of one track or of several, in whatever order.
// Pieces thinner than a thousandth of a millimetre are rounding and left out. Tracks are by y,
// segments by track.
Strips doubled_strips(const std::vector<Track>& tracks, std::span<const Segment> segments);

} // namespace acre::engine
