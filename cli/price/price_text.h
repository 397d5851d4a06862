// The price of a job as a page to be read aloud.
#pragma once

#include <string>

#include "engine/questions/estimate.h"
#include "lang/check/sheet.h"
#include "lang/source/source_map.h"

namespace acre::cli {

struct PricePage {
    bool color = false;
    bool names = false;          // names of lines instead of their labels
    bool all_quantities = false; // also those of used models
};

std::string price_text(const lang::CheckedSheet& sheet, const engine::Estimate& estimate,
                       const lang::SourceMap& sources, PricePage page = {});

// What the page and the JSON share.

// The costs that run by the hour of one machine: those over the same hours as the largest of them.
struct HourlyCosts {
    double hours = 0, per_hour = 0; // hours 0: fewer than two costs share theirs
};
HourlyCosts hourly_costs(const engine::Estimate& estimate);

// The conditions of `require` that hold, as written, each once.
std::vector<std::string> conditions_met(const lang::CheckedSheet& sheet,
                                        const lang::SourceMap& sources);

inline constexpr const char* standing_line =
    "These figures are estimates. Local codes and licensed practice decide.";

// "14 March 2027"
std::string date_text(const lang::ast::Date& date);

} // namespace acre::cli
