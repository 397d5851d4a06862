// What a file is that should have been GeoJSON.
#pragma once

#include <string>
#include <string_view>

namespace acre::engine {

// "a KML file", or empty where nothing tells.
std::string other_format(std::string_view text);

} // namespace acre::engine
