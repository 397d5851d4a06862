// How a boundary is named.
#pragma once

#include <string>
#include <string_view>

namespace acre::engine {

// A file, and perhaps one feature of it by name or by number: `ranch.geojson#Home place`,
// `ranch.geojson#2`.
struct BoundaryReference {
    std::string file, feature; // no feature: all of them
};

// What comes after the first `#` that ends a name in .json or .geojson; other `#` belong to the
// file's name.
BoundaryReference split_reference(std::string_view reference);

} // namespace acre::engine
