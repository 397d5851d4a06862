// In which order to drive the cells of a field, and from which corner each.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "engine/field/plane.h"

namespace acre::engine {

inline constexpr std::size_t ways_through = 4; // from either end row, its run either way

struct Way {
    Point in, out;
    double inside = 0; // from row to row of the cell
};
using CellEnds = std::array<Way, ways_through>;

struct CellWay {
    std::size_t cell = 0, way = 0;
};

// All cells, each once. The way between them, from where one is left straight to where the next is
// begun, with the way inside them is the shortest there is for up to six cells; for more it is the
// best of the chains that always go to the nearest cell, tried from several first cells; for more
// than 400 the cells stay in the order they come.
std::vector<CellWay> chain_cells(const std::vector<CellEnds>& cells);

// Of such a chain, in the units of the points, with the way inside the cells.
double way_between(const std::vector<CellEnds>& cells, const std::vector<CellWay>& chain);

} // namespace acre::engine
