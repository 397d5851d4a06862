#include "engine/field/boundary_reference.h"

#include <cstddef>

namespace acre::engine {

BoundaryReference split_reference(std::string_view reference) {
    constexpr std::string_view mark = "json#";
    const std::size_t at = reference.find(mark);
    if (at == std::string_view::npos)
        return {std::string(reference), {}};
    const std::size_t end = at + mark.size() - 1;
    return {std::string(reference.substr(0, end)), std::string(reference.substr(end + 1))};
}

} // namespace acre::engine
