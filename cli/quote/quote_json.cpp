#include "cli/quote/quote_json.h"

#include <nlohmann/json.hpp>

namespace acre::cli {

std::string record_json(std::string_view bytes) {
    return nlohmann::json::parse(bytes).dump(-1, ' ', true) + "\n";
}

} // namespace acre::cli
