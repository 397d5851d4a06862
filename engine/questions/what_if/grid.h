// Lines of a job over one, two or three givens: the ground for rate cards, curves and maps.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "engine/plan/compile_plan.h"
#include "engine/priced_job.h"
#include "engine/questions/what_if/axis.h"
#include "engine/questions/what_if/refusal.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"

namespace acre::engine {

inline constexpr std::size_t max_grid_axes = 3;
inline constexpr std::size_t max_grid_cells = 4'000'000;
inline constexpr std::size_t max_grid_answers = 16'000'000; // cells by lines

struct GridQuestion {
    struct Along {
        std::string_view given;
        std::vector<double> at; // in the unit of the given; of a choice: which options
    };
    std::vector<Along> along;
    std::vector<std::string_view> lines; // empty: the price per unit
};

// From low to high by steps, the end included; refuses a step that is not above zero and more than
// max_grid_cells places. A place within a millionth of a step of a whole number of steps is that
// place exactly: 0.1 .. 0.3 by 0.1 ends at 0.3.
std::optional<std::vector<double>> places(Range range, double step, Refusal& refusal);
// So many places, evenly, both ends included.
std::optional<std::vector<double>> places(Range range, std::size_t count, Refusal& refusal);

struct Grid {
    struct Along {
        Axis axis;
        std::vector<double> at;
    };
    struct Column {
        lang::LineId line = 0;
        std::vector<double> value;      // by cell; NaN: no answer
        double least = 0, greatest = 0; // of the answers
    };
    std::vector<Along> along;
    std::vector<Column> columns;
    std::size_t cells = 0;                  // the last axis runs fastest
    std::size_t without_answer = 0;         // cells
    std::vector<std::size_t> first_without; // the first few of them

    // Where along axis k cell i stands.
    std::size_t place(std::size_t cell, std::size_t k) const;
};

std::optional<Grid> grid(const PricedJob& job, const GridQuestion& question, Refusal& refusal);

} // namespace acre::engine
