// A table of CSV (RFC 4180) as cells with their places. libcsv reads it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "lang/source/span.h"

namespace acre::engine {

struct CsvCell {
    std::string text;
    lang::Span span;
};
using CsvRow = std::vector<CsvCell>;

struct CsvTable {
    std::vector<CsvRow>
        rows; // those without a word are left out; a row has at most one cell too many
    bool well_formed = false;
    bool too_many_rows = false; // more than asked for: the rest is not read
    lang::Span end;             // where reading ended, for what is not well formed
};

// `file` is that of the text in its source map.
CsvTable read_csv(std::string_view text, lang::FileId file, std::size_t most_rows,
                  std::size_t most_columns, char between = ',');

// What stands between the cells: a semicolon where the first line has some and no comma, a tab
// where it has neither.
char between_cells(std::string_view text);

} // namespace acre::engine
