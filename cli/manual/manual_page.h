// Manual pages (man 7 man-pages) of the program, its commands and the three kinds of files, made
// from the table of commands and the pages of the words.
#pragma once

#include <string>
#include <vector>

#include "cli/command.h"

namespace acre::cli {

// "acrewright.1", "acrewright-price.1", …, "acrewright-job.5"
std::vector<std::string> manual_names();
// Empty: there is no such page.
std::string manual_page(const std::string& name);

} // namespace acre::cli
