// The scripts that ask the program for completions: cli/shell/scripts, in the order of their names.
#pragma once

#include <span>
#include <string_view>

namespace acre::cli {

std::span<const std::string_view> shell_texts(); // of bash, of zsh

} // namespace acre::cli
