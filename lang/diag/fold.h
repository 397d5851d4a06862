// A text for people, folded into lines of a width.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace acre::lang {

// Folds at spaces; a line end in the text starts a new line. A word wider than the width is not
// broken, nor a quantity such as `100 %`. `text` must be safe to show but for its line ends. Never
// empty.
std::vector<std::string> fold(std::string_view text, std::size_t width);

} // namespace acre::lang
