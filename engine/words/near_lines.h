// What somebody who asked for a line that does not exist may have meant, as help of an error.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "lang/check/sheet.h"

namespace acre::engine {

enum class Among { Lines, Givens };

// Names that look like it; if there are none, names and labels that have its words.
std::vector<std::string> near_lines(const lang::Sheet& sheet, std::string_view name, Among among);

// Lines whose name or label has the words of `name`, each with its label.
std::vector<std::string> lines_that_say(const lang::Sheet& sheet, std::string_view name,
                                        Among among,
                                        std::span<const std::string_view> but_for = {});

} // namespace acre::engine
