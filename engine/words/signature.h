// How a function is called, in words.
#pragma once

#include <string>
#include <vector>

#include "lang/check/sheet.h"

namespace acre::engine {

// "depth : ft" of each, and last "each layer (thick : ft, weight : lbf/ft^3)" of one over a list.
std::vector<std::string> parameters_of(const lang::Function& function);

// "shank_draft (depth : ft) each layer (thick : ft) : lbf"
std::string signature_of(const lang::Function& function);

// What a range of a parameter is called: of a column its own name.
std::string parameter_name(const lang::Function& function, std::uint32_t parameter);

// There for another number of rows too: the one for one row stands for all.
inline bool is_further_copy(const lang::Function& function) {
    return function.rows > 1;
}

} // namespace acre::engine
