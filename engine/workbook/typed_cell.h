// What somebody typed into a cell of a given, as its figure.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace acre::engine {

// In `unit`, that of the given: "$1,234.50", "12 CHF" where that is the firm's money, "5 %" and "5"
// of a share, "17:30" and 17.5 of a clock time. Nothing where it is none, or may be two things: a
// spreadsheet makes 0.05 of a typed 5 %, and 0.73 of 17:30.
std::optional<double> figure_typed(std::string_view text, std::string_view unit, bool semicolons);
// What to type instead.
std::string number_help(const std::string& unit);

// As the notation writes it, with every digit: "$5.1/gal", "45 CHF/h", "0.00001 ac", "17:30".
std::string cell_written(double value, const std::string& unit);

} // namespace acre::engine
