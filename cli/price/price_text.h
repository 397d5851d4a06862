// The price of a job as a page to be read aloud.
#pragma once

#include <string>

#include "engine/questions/price.h"

namespace acre::cli {

struct PricePage {
    bool color = false;
    bool names = false;          // names of lines instead of their labels
    bool all_quantities = false; // also those of used models
    std::string part = {};       // only the lines of this part; empty: the whole price
};

std::string price_text(const engine::PriceAnswer& answer, PricePage page = {});

// On the page and in the JSON.
inline constexpr const char* standing_line =
    "These figures are estimates. Local codes and licensed practice decide.";

} // namespace acre::cli
