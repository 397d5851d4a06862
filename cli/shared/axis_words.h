// A given and its places on the command line: "depth=4 ft,5 ft,6 ft", "run=300 ft..2,600 ft by 100
// ft", "method=one_way,crossed".
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/questions/what_if/axis.h"
#include "lang/check/sheet.h"

namespace acre::cli {

struct AxisWords {
    std::string given;
    std::vector<double> at;         // in the unit of the given; of a choice: which option
    std::vector<std::string> shown; // "4 ft", "one_way"
};

// "300 ft..2,600 ft", in `unit`. Empty: `reason` says what is wrong; also when it is empty or runs
// downwards.
std::optional<engine::Range> read_range(std::string_view text, std::string_view unit,
                                        std::string& reason);

// False: `reason` says what is wrong.
bool read_axis(std::string_view text, const lang::Sheet& sheet, AxisWords& axis,
               std::string& reason);

} // namespace acre::cli
