// Lines that have no sense below zero: money, hours, acres, rates, shares.
#pragma once

#include <vector>

#include "lang/check/sheet.h"

namespace acre::engine {

// A difference of like numbers is seldom exactly zero: a value this little below zero, in the unit
// of its line, is zero.
inline constexpr double sign_dust = 1e-9;

// One byte a line: 1 where a value below zero is a fault. Not a plain number, an angle or a profit,
// not a line that says `may be negative`, and not a given with an allowed range, which is judged
// by that.
std::vector<char> lines_not_negative(const lang::Sheet& sheet);

} // namespace acre::engine
