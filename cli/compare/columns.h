// Jobs, or options of one job, side by side: the figures that `compare` shows in text and JSON.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "cli/shared/job.h"
#include "engine/questions/bridge/bridge.h"
#include "engine/questions/estimate.h"

namespace acre::cli {

inline constexpr std::size_t max_columns = 12;
inline constexpr std::size_t max_side_by_side =
    2'000'000; // steps of calculation of all columns together: each is kept whole

struct CompareColumn {
    std::string name; // "as it stands", an option's title, or a job's file
    engine::Job job;
    engine::Estimate estimate;
};

struct CompareRow {
    std::string name, label, unit;
    std::vector<double> value;       // by column; NaN: this one has no such line
    std::vector<std::string> choice; // instead of values, for what differs
};

struct Comparison {
    std::vector<CompareColumn> columns;
    std::vector<std::string>
        unanswered;                 // names of columns that have no price; why is told as an error
    std::vector<CompareRow> prices; // total, per unit, per planted tree
    std::vector<CompareRow> costs;  // amounts, $
    std::vector<CompareRow> quantities;  // acres, hours, days, gallons …
    std::vector<CompareRow> differences; // givens that are not the same in all columns
    std::size_t cheapest = 0;            // column of the least price per unit
    struct Why {
        std::size_t column = 0; // against the first
        engine::Bridge bridge;
        std::string why_not; // no bridge: why
    };
    std::vector<Why> why;
};

// Fills in what follows from the columns, which have been priced. Bridges are made from the first
// to each other one.
void compare(Comparison& comparison);

std::string compare_text(const Comparison& comparison, bool color);
// Schema acrewright.compare/1. Field by field in cli/README.md.
std::string compare_json(const Comparison& comparison);

} // namespace acre::cli
