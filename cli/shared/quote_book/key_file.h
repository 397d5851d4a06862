// Keys in files: one line of hexadecimal digits.
#pragma once

#include <string>

#include "lang/diag/outcome.h"

namespace acre::cli {

// A secret key: 128 digits, in a file that nobody but its owner may read; an empty path is an empty
// key. F701, F702; R009: the file is open to others, is no key, or its two halves are not of one
// key.
lang::Outcome<std::string> read_key(const std::string& path);

// An open key: 64 digits, or the name of a file that holds them. R009.
lang::Outcome<std::string> read_open_key(const std::string& text);

} // namespace acre::cli
