// Puts cells into a sheet.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "engine/workbook/workbook.h"

namespace acre::engine {

// How amounts are shown, in the firm's money; and rates as they are billed, with all their
// decimals.
std::string money_format();
std::string rate_format();
// How a figure of this unit is shown: money with its cents, a whole number as it is, others with
// two to four decimals.
std::string figure_format(std::string_view unit, double value);

class SheetWriter {
  public:
    explicit SheetWriter(BookSheet& sheet) : sheet_(sheet) {}

    void text(std::uint32_t row, std::uint32_t column, std::string_view text,
              Look look = Look::Plain);
    void number(std::uint32_t row, std::uint32_t column, double value, std::string format,
                Look look = Look::Figure);
    void formula(std::uint32_t row, std::uint32_t column, std::string formula, double value,
                 std::string format, Look look = Look::Figure);
    // One that gives a text.
    void words(std::uint32_t row, std::uint32_t column, std::string formula, std::string_view shown,
               Look look = Look::Plain);
    // The last cell stretches over so many columns.
    void span(std::uint32_t columns) { sheet_.cells.back().span = columns; }
    void blank(std::uint32_t row, std::uint32_t column, Look look);
    void headings(std::uint32_t row, std::initializer_list<std::string_view> titles);

  private:
    BookSheet& sheet_;
};

} // namespace acre::engine
