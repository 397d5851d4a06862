// The JSON of records, for the .cpp files of this folder only, so that few pay for the library.
#pragma once

#include <nlohmann/json.hpp>

namespace acre::engine {

using Json = nlohmann::json;

} // namespace acre::engine
