// A folder of small files of every kind, and a book of one quote in it as the program itself writes
// it: what whole command lines are tried on.
#pragma once

#include <map>
#include <string>

namespace acre::fuzz {

const std::map<std::string, std::string>& small_folder(); // by path

} // namespace acre::fuzz
