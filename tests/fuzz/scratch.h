// A folder in which commands run, made anew with the same small files for each input.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "cli/shared/console.h"

namespace acre::fuzz {

// The folder becomes the working folder; standard input is empty. Whatever stood in the folder
// before is gone.
void set_out(const std::map<std::string, std::string>& files);

// Nobody's files but those of the scratch folder: no word names a place outside it.
bool stays_inside(const std::vector<std::string>& words);

// Runs the program's commands in process and checks what must hold of any command line. The exit
// code.
int hold_command(const std::vector<std::string>& words, cli::Console& console);

} // namespace acre::fuzz
