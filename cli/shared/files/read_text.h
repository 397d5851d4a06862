// Texts from files, with every way a file can be wrong told apart.
#pragma once

#include <cstddef>
#include <string>

#include "cli/shared/files/descriptor.h"
#include "lang/diag/outcome.h"
#include "lang/syntax/parse.h"

namespace acre::cli {

// Of boundaries and logs, which are data: a text of the notation is smaller (lang::max_file_bytes).
inline constexpr std::size_t max_data_bytes = std::size_t{8} << 20U;

// Reads a UTF-8 text of at most `limit` bytes; a byte order mark at its head is dropped, line ends
// stay as they are. Otherwise F701 (not there), F702 (a folder, no permission, not a plain file),
// F703 (bytes that are no text), F704 (empty), S118 (too large), which say why in a note and point
// nowhere. Pipes are read too when `pipes` says so: only for what the user names on the command
// line.
lang::Outcome<std::string> read_text(const std::string& path, bool pipes,
                                     std::size_t limit = lang::max_file_bytes);

// The same of a file that is open already; `path`: what it is called.
lang::Outcome<std::string> read_open(const Descriptor& file, const std::string& path, bool pipes,
                                     std::size_t limit = lang::max_file_bytes);

// Standard input, with the same checks.
lang::Outcome<std::string> read_standard_input(std::size_t limit = lang::max_file_bytes);

} // namespace acre::cli
