// A stranger's words in a cell of a workbook.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace acre::cli {

inline constexpr std::size_t most_cell_letters = 4'000; // a formula may be a page long

// Safe to show as on a terminal, at most so many bytes, cut between characters; `_x0041_` stays
// seven characters (ECMA-376 part 1, ST_Xstring, reads it as a letter; from memory).
std::string cell_words(std::string_view text, std::size_t most = most_cell_letters);

} // namespace acre::cli
