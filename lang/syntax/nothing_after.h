// What is not there where a value is missing, by the word or sign before it.
#pragma once

#include <string_view>

namespace acre::lang {

// "nothing to multiply by" after `*`; empty after what asks for nothing in particular.
std::string_view nothing_after(std::string_view sign);

} // namespace acre::lang
