// Addresses, names and texts as every spreadsheet reads them.
#pragma once

#include <cstdint>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "lang/check/sheet.h"

namespace acre::engine {

std::string cell_address(std::uint32_t row, std::uint32_t column);  // "C12"
std::string fixed_address(std::uint32_t row, std::uint32_t column); // "$C$12"
std::string fixed_range(std::uint32_t first_row, std::uint32_t first_column, std::uint32_t last_row,
                        std::uint32_t last_column); // "$C$5:$C$9"
// "Lines!$C$12", "'Lines 2'!$C$12"; `place` is an address or a range.
std::string on_sheet(std::string_view sheet, std::string_view place);

// A number as a formula has it, with all of its digits; below zero it stands in brackets. NaN is
// "NA()".
std::string formula_number(double value);
// A text as a formula has it: in quotes.
std::string formula_text_of(std::string_view text);

// The options of a choice as people read them, "one way", each another text to a spreadsheet, which
// does not tell capital letters from small ones.
std::vector<std::string> option_words(const lang::ChoiceType& choice);
// Of a value of a plan; empty: none.
std::string option_word(const lang::ChoiceType& choice, double value);

// Names that a spreadsheet keeps apart: it takes `tip1` for a cell, `r1c1` and `c` for rows and
// columns, `Area` for `area`, and `true` for a value. Such names get a `_`, or `_2`, behind them.
class DefinedNames {
  public:
    // Empty where the name is too long for a spreadsheet.
    std::string take(std::string_view name);

  private:
    std::set<std::string> taken_; // in lower case
};

} // namespace acre::engine
