// What may stand at the end of a command line that somebody is writing.
#pragma once

#include <string>
#include <vector>

#include "cli/command.h"

namespace acre::cli {

// `words` without the program's name; the last is the one that is written, perhaps empty. A
// candidate that ends with `=` or `/` is to be written on.
std::vector<std::string> completions(Words words);

} // namespace acre::cli
