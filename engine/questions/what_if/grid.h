// Lines of a job over one, two or three givens: the ground for rate cards, curves and maps.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/subject.h"
#include "engine/questions/what_if/range.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::size_t max_grid_axes = 3;
inline constexpr std::size_t max_grid_cells = 4'000'000;
inline constexpr std::size_t max_grid_answers = 16'000'000; // cells by lines

struct GridQuestion {
    struct Along {
        std::string given;
        std::vector<double> at; // in the unit of the given; of a choice: which options
    };
    std::vector<Along> along;
    std::vector<std::string> lines; // empty: the price per unit
    bool names = false;             // lines and givens are called by their names
};

// From low to high by steps, the end included; Q003 for a step that is not above zero, Q006 for
// more than max_grid_cells places. A place within a millionth of a step of a whole number of steps
// is that place exactly: 0.1 .. 0.3 by 0.1 ends at 0.3.
lang::Outcome<std::vector<double>> places(Range range, double step);
// So many places, evenly, both ends included. Q003.
lang::Outcome<std::vector<double>> places(Range range, std::size_t count);

struct GridAnswer {
    struct Along {
        Subject given;
        std::vector<double> at;
    };
    struct Column {
        Subject line;
        std::vector<double> value;      // by cell; NaN: no answer
        double least = 0, greatest = 0; // of the answers
    };
    std::string title;
    std::vector<Along> along;
    std::vector<Column> columns;
    std::size_t cells = 0;                  // the last axis runs fastest
    std::size_t without_answer = 0;         // cells
    std::vector<std::size_t> first_without; // the first few of them

    // Where along axis k cell i stands.
    std::size_t place(std::size_t cell, std::size_t k) const;
};

// Q001 and Q002 for lines and givens, Q002 for a value that a given cannot take, Q004 and Q006 for
// a grid that is too large, and what stands in the way of the lines as the job has them.
lang::Outcome<GridAnswer> ask(const PricedJob& job, const GridQuestion& question);

} // namespace acre::engine
