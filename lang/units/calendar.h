// Days of the Gregorian calendar, counted from 1970-01-01, and how they are written. It knows no
// clock: what day it is today is for whoever asks (cli/shared/clock.h).
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace acre::lang {

// Days are written with four digits of a year.
inline constexpr int first_year = 1900; // before it a date is a slip
inline constexpr int last_year = 9999;

// 28 to 31; `month` is 1 to 12.
int days_in_month(int year, int month);
long day_number(int year, int month, int day); // of a date that is there

// "2027-03-14" as a day. Empty: no such date, or outside the years above.
std::optional<long> day_number(std::string_view date);
// And back; empty past the last year.
std::optional<std::string> date_after(std::string_view date, long days); // `date` is one
std::string date_text(long day);

std::string_view month_name(int month);     // "March"
int weekday_of(long day);                   // 0: Sunday
std::string_view weekday_name(int weekday); // "sunday", as files write it

// For people: "March 14, 2027", "March 2027".
std::string day_text(long day);
std::string month_text(int year, int month);
// "Sunday, March 14, 2027", and "Sun" of it.
std::string weekday_text(long day);
std::string_view short_weekday(int weekday);
// Of a date as files write it, whole or short for a column: "Mar 14, 2027". What is no date stays
// as it is.
std::string day_text(std::string_view date);
std::string short_day_text(std::string_view date);

// Months since the year 0, so that months can be counted on: 12 * year + month - 1.
int month_count(long day);

} // namespace acre::lang
