// When a job starts and is done, in words.
#pragma once

#include <string>
#include <string_view>

#include "engine/questions/dates.h"

namespace acre::cli {

// "3 days of work"; `of` begins with a space.
std::string count_of_days(double days, std::string_view of);

// "June 21, 2027 to June 26, 2027: 5 days of work, 1 closed"
std::string dates_words(const engine::DatesAnswer& dates);

} // namespace acre::cli
