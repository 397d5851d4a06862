// Schema acrewright.record/1: a record as other programs read it. Field by field in cli/README.md.
#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

namespace acre::cli {

// What the file says, in ASCII, as all JSON of the program is; nothing added, so that the seal
// still holds.
std::string record_json(const nlohmann::json& record);

} // namespace acre::cli
