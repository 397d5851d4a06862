// The files that teach vim and neovim the notation: its words come from the table of words.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace acre::cli {

std::string vim_syntax();
// Each file of cli/editor/vim as it is, in the order of their names: filetype.vim, setup.lua.
std::span<const std::string_view> vim_texts();

} // namespace acre::cli
