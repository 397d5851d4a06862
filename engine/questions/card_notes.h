// What stands at the cells of a rate card: why one has no rate, and the cautions that it brings up.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr std::size_t most_noted_cells = 2'000; // of a larger card no cell has notes

struct CardNotes {
    std::vector<std::string> text;                 // each once, in the order of the cells
    std::vector<std::vector<std::size_t>> by_cell; // into `text`
};

struct CardCell {
    std::vector<double> at; // by axis
    bool has_rate = false;
};

// A caution that every cell with a rate brings up is no note of any. Q001 and Q002 for the givens.
lang::Outcome<CardNotes> card_notes(const PricedJob& job, std::span<const std::string> givens,
                                    std::span<const CardCell> cells);

} // namespace acre::engine
