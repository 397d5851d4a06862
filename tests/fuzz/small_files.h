// The models and the season that jobs of the fuzzer may name: small, and with a little of
// everything in them.
#pragma once

#include <map>
#include <string>

namespace acre::fuzz {

std::map<std::string, std::string> small_files();

// A job of them that has a price, as text.
std::string small_job();

} // namespace acre::fuzz
