// Lines over one, two or three givens: table, CSV, JSON and picture of one grid.
#pragma once

#include <string>

#include "cli/shared/reply.h"
#include "engine/questions/what_if/grid.h"

namespace acre::cli {

inline constexpr std::size_t max_table_cells =
    20'000; // of a table for people; CSV and JSON have no limit of their own

// Two givens across and down, one table a line and a value of the third; one given down, lines
// across.
std::string grid_text(const engine::GridAnswer& grid, bool color);
// One row a cell: the givens, then the lines. RFC 4180.
std::string grid_csv(const engine::GridAnswer& grid);
Document grid_json(const engine::GridAnswer& grid);
// Curves over one given that is a number, otherwise shaded cells. Q006, Q009: what a picture cannot
// show.
lang::Outcome<std::string> grid_svg(const engine::GridAnswer& grid);

} // namespace acre::cli
