// A cell of a log, or of another table that people keep, as what it says: a figure, money, a day.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace acre::engine {

// "$1,234.50" is 1234.5; also "1,234.50", and "A$1,234.50" where the firm writes money so. A comma
// parts thousands, three digits each, and nothing else: "15,5" is no figure. Where cells stand
// between semicolons nobody knows what a comma is, so there it is none either.
std::optional<double> figure_in(std::string_view cell, bool semicolons);

// "2027-03-14", or with `american` "3/14/2027"; given back as the first.
std::optional<std::string> day_in(std::string_view cell, bool american);

// Whether the head of a column says dates as Americans write them: "date mm/dd/yyyy", with or
// without brackets.
bool is_american_date(std::string_view head);

// A word without capitals, and with one space for every run of spaces, underscores and hyphens.
std::string plain_word(std::string_view text);

} // namespace acre::engine
