// Words of the user on their way into other media. One function a medium; the terminal's is
// lang::terminal_text.
#pragma once

#include <string>
#include <string_view>

namespace acre::cli {

// For text between tags and inside quoted attributes of HTML and SVG: & < > " ' as entities, what
// steers a terminal or turns the reading direction as the escapes of lang::terminal_text.
std::string markup_text(std::string_view text);

// One field of a CSV line (RFC 4180, section 2): quoted where it must be. A spreadsheet would read
// a field that begins with = + - @ as a formula, so such words get a ' before them; a plain number
// is left alone.
std::string csv_field(std::string_view text);

} // namespace acre::cli
