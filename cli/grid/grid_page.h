// Lines over one, two or three givens: table, CSV, JSON and picture of one grid.
#pragma once

#include <string>
#include <vector>

#include "cli/shared/axis_words.h"
#include "cli/shared/job.h"
#include "engine/questions/what_if/grid.h"

namespace acre::cli {

inline constexpr std::size_t max_table_cells =
    20'000; // of a table for people; CSV and JSON have no limit of their own

struct GridPage {
    const engine::PricedJob* job = nullptr;
    engine::Grid grid;
    std::vector<AxisWords> axes; // as asked for, with every place in words
    bool names = false, color = false;
};

// Two givens across and down, one table a line and a place of the third; one given down, lines
// across.
std::string grid_text(const GridPage& page);
// One row a cell: the places, then the lines. RFC 4180.
std::string grid_csv(const GridPage& page);
std::string grid_json(const GridPage& page);
// Curves over one given that is a number, otherwise shaded cells. False: `reason` says why not.
bool grid_svg(const GridPage& page, std::string& svg, std::string& reason);

} // namespace acre::cli
