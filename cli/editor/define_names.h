// What a function sees: its parameters, its columns and the lines inside it.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace acre::cli {

// Of the `define` that the place is in, in their order; none: it is in no define. As typed, whether
// it can be read or not.
std::optional<std::vector<std::string_view>> names_of_define(std::string_view text,
                                                             std::uint32_t offset);

} // namespace acre::cli
