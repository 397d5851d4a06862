// Functions of spreadsheets, and what says the same here.
#pragma once

#include <string_view>

namespace acre::lang::resolving {

// "ceil(a, step)" for `ROUNDUP`; empty for a name of no such function.
std::string_view form_of_other(std::string_view name);

} // namespace acre::lang::resolving
