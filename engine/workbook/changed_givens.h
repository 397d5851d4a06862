// What somebody changed in the givens of a workbook, from that sheet saved as CSV: as `set` lines
// for the job or the season.
#pragma once

#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/workbook/workbook.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::size_t most_saved_rows = 200'000;
inline constexpr std::size_t most_saved_columns = 60;

struct ChangedGiven {
    std::string name;
    std::string option;  // whose it is; empty: the job's
    std::string value;   // as the notation writes it: "5 ft", "tree_rows"
    std::string before;  // the same as people read it, empty where nobody had set it
    std::string set_by;  // "job, examples/01-first-price.job:9"
    std::string because; // typed beside it; may be empty
};

// `options`: as the workbook was written with them. I613: no sheet of givens, a name that is none,
// or a cell that is no value of its given.
lang::Outcome<std::vector<ChangedGiven>>
changed_givens(const PricedJob& job, const std::vector<WorkbookQuestion::Option>& options,
               std::string name, std::string text);

// As lines of a job, those of options below their titles.
std::string set_lines(const std::vector<ChangedGiven>& changes);

} // namespace acre::engine
