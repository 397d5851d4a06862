// The heads of a log's columns, as a spreadsheet or a person writes them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/log/counting.h"

namespace acre::engine {

// Columns of every log, and those of what this job counts.
std::vector<std::string_view> known_columns(const std::vector<CountedLine>& counted);

// "Meter start", "METER_START" and "meter-start" are `meter_start`; "Amount.tips" is `amount.tips`.
// `known`: names of columns. What is none of them stays as it is.
std::string head_name(std::string_view written, const std::vector<std::string_view>& known);

// The cost of a column of money, `tips` of `amount.tips`; empty: it is none.
std::string_view cost_of_head(std::string_view name);

} // namespace acre::engine
