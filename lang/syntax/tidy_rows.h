// The canonical layout in the making: a statement as rows of pieces with the blanks between them,
// and the alignment of neighbouring rows. Used by tidy.cpp only.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "lang/syntax/layout.h"

namespace acre::lang {

// Where columns of neighbours are lined up, from left to right.
enum class Stop : std::uint8_t { None, Colon, Equals, Over, Second };

struct TidyPiece {
    std::string text;      // the author's, but units are spelled as they are written here
    std::uint32_t gap = 0; // blanks before it, at least
    Stop stop = Stop::None;
};

// One line of the result.
struct TidyRow {
    std::uint32_t indent = 0;
    Keyword group = Keyword::None; // rows of one group next to each other are lined up
    bool aligned = false;          // the first row of a statement that lines up with its neighbours
    std::vector<TidyPiece> pieces; // none: a comment of its own, or an empty row
    std::string_view comment;      // with its `#`
    std::string text;              // the pieces put together, by align()
};

// The rows of a statement, as many as the author wrote. `binary_minus` holds the offsets of all
// subtraction signs of the text, rising: any other minus is a sign of a number or a bracket.
std::vector<TidyRow> rows_of(std::string_view text, const LogicalLine& line, Keyword parent,
                             const std::vector<std::uint32_t>& binary_minus);

// Lines up runs of neighbours, fills in every row's text, then lines up the comments behind them.
void align(std::vector<TidyRow>& rows);

} // namespace acre::lang
