// One line of source with the marks and labels under it, as rows of colored pieces.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace acre::lang {

enum class Ink : std::uint8_t { Plain, Title, Error, Warning, Mark, Number, Place, Mend };

struct Piece {
    std::size_t column = 0; // from 0
    std::string text;
    Ink ink = Ink::Plain;
};
using Row = std::vector<Piece>; // by column, not overlapping

struct LineLabel {
    std::size_t begin = 0; // bytes into the line; past the end is its end
    std::size_t end = 0;
    std::string text; // safe to show
    bool primary = false;
};

// The line itself first, then the row of marks, then the rows of labels that did not fit beside
// their mark. `labels` must not be empty. Tabs stand every four columns. No row but those of long
// label texts is wider than `width`.
std::vector<Row> draw_line(std::string_view line, std::vector<LineLabel> labels, std::size_t width,
                           Ink primary_ink);

} // namespace acre::lang
