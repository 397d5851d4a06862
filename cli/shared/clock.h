// The only place of the program that looks at the clock. Dates are lang/units/calendar.h.
#pragma once

#include <string>

namespace acre::cli {

// Today in local time, "2027-03-14".
std::string today();

} // namespace acre::cli
