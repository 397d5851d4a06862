// The order in which the lines of a field are driven. Runs of lines in neighboring rows that see
// each other one to one are a cell, swept back and forth by itself: the boustrophedon decomposition
// of Choset (2000), Autonomous Robots 9: 247-253. So no row is driven across a hole, a notch or the
// way to another block.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "engine/field/cut_lines.h"

namespace acre::engine {

// Segments of one row that are driven in one go, with the shank lifted in between.
struct Run {
    std::size_t first = 0, last = 0; // into Lines::segments, both included
    bool forward = true;             // toward greater x
    std::size_t cell = 0;
};

struct Sweep {
    std::vector<Run> runs; // in driving order
    std::size_t cells = 0;
    std::size_t skip = 1; // rows over, in cells where the next row is too near to turn into
};

// Gaps of a row up to `reach` are crossed with the shank up; over wider ones the row falls into
// runs of different cells. With an infinite `reach` all rows of a block are one cell. In a cell the
// machine drives loops into the next row, or goes so many rows over that it needs none, whichever
// is the shorter way. Cells are chained so that the way between them is short: the shortest of all
// chains for up to six cells, the best of nearest-neighbor chains for more.
Sweep sweep(const Lines& lines, double turn_diameter, double reach);

} // namespace acre::engine
