// Dates: the only place of the program that looks at the clock, and arithmetic on the calendar.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace acre::cli {

// Today in local time, "2027-03-14".
std::string today();

// "2027-03-14" to days since 1970-01-01, and back. Empty: no such date.
std::optional<long> day_number(std::string_view date);
std::string date_text(long day);
// For people: "March 14, 2027", "March 2027".
std::string day_text(long day);
std::string month_text(int year, int month);
// Of a date as files write it; what is no date stays as it is.
std::string day_text(std::string_view date);

} // namespace acre::cli
