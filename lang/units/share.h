// Shares: values in %, and what a bare number may have meant where one is needed.
#pragma once

#include <string>
#include <string_view>

#include "lang/units/unit.h"

namespace acre::lang {

// Whether the unit is %.
bool is_share(const Unit& unit);

struct ShareMends {
    std::string likely; // "15 %" for 15, "8 %" for 0.08, "100 %" for 1
    std::string other;  // what else the number may have meant: "1,500 %", "0.08 %", "1 %"
    std::string why;    // when it would be the other: "15 times as much would be"
};
// `value`: above 0; `written`: the same as its author wrote it.
ShareMends share_mends(double value, std::string_view written);

} // namespace acre::lang
