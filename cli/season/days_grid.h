// Days running down, machines across: who is where, from one change to the next.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cli/season/report.h"

namespace acre::cli {

struct DaysGrid {
    struct Column {
        std::size_t machine = 0, unit = 0; // into the machines of the season and their units
    };
    struct Row { // days on which nothing changes
        long first = 0, last = 0;
        std::vector<std::vector<std::size_t>> jobs; // by column; more than one: wanted twice
        bool after_gap = false;                     // idle days before it are left out
    };
    std::vector<Column> columns; // of units that are on a job
    std::vector<Row> rows;
    bool all = true; // that there are
};

inline constexpr std::size_t most_grid_rows = 150;

// `units`: as dated, or as planned.
DaysGrid days_grid(const engine::Season& season, const engine::UnitsOfJobs& units);

} // namespace acre::cli
