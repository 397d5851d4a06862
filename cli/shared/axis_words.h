// A given and its values on the command line: "depth=4 ft,5 ft,6 ft", "run=300 ft..2,600 ft by 100
// ft", "method=one_way,crossed".
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/questions/quantity.h"
#include "engine/questions/subject.h"
#include "engine/questions/what_if/range.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

struct AxisWords {
    engine::Subject given;
    std::vector<double> at;         // in the unit of the given; of a choice: which option
    std::vector<std::string> shown; // as files write them: "4 ft", "one_way"
};

// "300 ft..2,600 ft". C003, also when it is empty or runs downward.
lang::Outcome<engine::Range> read_range(std::string_view text,
                                        const engine::QuantityReader& quantities);

// C003 for what cannot be read, `where` says what it was; Q001 and Q002 for the given.
lang::Outcome<AxisWords> read_axis(std::string_view text, const engine::PricedJob& job,
                                   std::string_view where);

} // namespace acre::cli
