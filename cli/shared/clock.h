// The only place of the program that looks at the clock. Dates are lang/units/calendar.h.
//
// Where the environment has SOURCE_DATE_EPOCH (seconds since 1970, the convention of reproducible
// builds), that is the time: what is made twice is then the same twice.
#pragma once

#include <string>

namespace acre::cli {

// Today in local time, "2027-03-14".
std::string today();

// Now in universal time, "2027-03-14T15:04:05Z".
std::string time_now();

} // namespace acre::cli
