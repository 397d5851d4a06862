// Figures that stand beside the text: the price above `job` and `price`, the value of each line at
// its end.
#pragma once

#include <string>
#include <vector>

#include "cli/editor/workspace.h"

namespace acre::cli {

struct Beside {
    std::uint32_t offset = 0; // of a lens: anywhere in its line; of a value: the end of the line
    std::string text;
};

std::vector<Beside> lenses_of(const TextView& view, const std::string& file, std::string_view text);
// Those whose statement begins from `begin` to before `end`; none while the text has errors, for
// then they are of another text.
std::vector<Beside> values_of(const TextView& view, const std::string& file, std::string_view text,
                              std::uint32_t begin, std::uint32_t end);

} // namespace acre::cli
