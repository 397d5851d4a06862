// What values set on the command line change: a line, or the whole price, before and after.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/bridge/bridge.h"
#include "engine/questions/estimate.h"

namespace acre::engine {

struct ChangedFigure {
    std::string name, label, unit;
    double before = 0, after = 0; // of a choice, or where there is no answer: NaN
    std::string before_text, after_text;
};

struct ChangedPrice {
    std::vector<ChangedFigure> figures; // price, all in, direct cost, overhead, profit, margin
    std::optional<BridgeAnswer> why;    // none: one price cannot be changed into the other
};

// None where either side has no price.
std::optional<ChangedPrice> changed_price(const PricedJob& before, const PricedJob& after);

// None where the line is not on both sides.
std::optional<ChangedFigure> changed_line(const PricedJob& before, const PricedJob& after,
                                          std::string_view line);

} // namespace acre::engine
