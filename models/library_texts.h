// The library of formulas as it was when the program was built: "library/haul" and its text.
#pragma once

#include <span>
#include <string_view>

namespace acre::models {

struct LibraryText {
    std::string_view reference;
    std::string_view text;
};

std::span<const LibraryText> library_texts();

}  // namespace acre::models
