// The lines of a wording: what stands on one, and where a part of several ends.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace acre::cli {

// Without the blanks at both ends. Nothing is still a place in the text.
std::string_view trimmed(std::string_view text);

// What stands between `@each` and its `@end`, and where the line after that begins.
struct EachBody {
    std::string_view lines;
    std::size_t next = 0;
};
std::optional<EachBody> each_body(std::string_view text, std::size_t begin);

// "base=NAME rows=6" by name.
std::map<std::string, std::string_view, std::less<>> pairs_of(std::string_view text);

// Where the firm's own file says what a wording must not: a season names that file.
std::string said_by_firm(std::string_view word);

// The name of an entry as people write it: "River piece" of river_piece.
std::string spoken(std::string name);

} // namespace acre::cli
