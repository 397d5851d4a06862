// In which order the rows of a cell are driven.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace acre::engine {

// Rows to step over so that the machine turns without a loop: the smallest number after which every
// row is `diameter` from the one it comes from; 1 if the next row is far enough. `y`: m, rising,
// one a row.
std::size_t rows_apart(std::span<const double> y, double diameter);

// Indices 0 .. count - 1, each once. skip 1: as they come. Else land by land, so many rows over and
// one less back: from two rows in `skip` + 1 on, all are at least `skip` apart from the one before,
// and hardly further; fewer rows have a row in the middle that is nearer to all others, and are
// driven half of them apart.
std::vector<std::size_t> row_order(std::size_t count, std::size_t skip);

} // namespace acre::engine
