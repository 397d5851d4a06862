// Clock times: hours after midnight, in the unit `clock`, of which one is an hour.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace acre::lang {

inline constexpr std::string_view clock_unit = "clock";

// For people, to the minute: "7:30 pm", "noon"; outside 0 to 24 "8:48 pm the day before", "1:30 am
// 2 days after". NaN is "no answer".
std::string clock_text(double hours);

// As files write it: "19:30"; "19.513 clock" where minutes do not say it whole, and outside the
// day.
std::string written_clock(double hours);

// Of 7 and 30 and "pm", "p.m.", "am", "a": 19.5. Empty: no such time.
std::optional<double> clock_of(int hour, int minute, std::string_view half);

// "pm", "A.M.", "p".
bool is_half_of_day(std::string_view word);

// The unit in which two values of `unit_text` differ: hours of two clock times.
std::string_view unit_of_difference(std::string_view unit_text);

} // namespace acre::lang
