#include "cli/quote/quote_json.h"

#include <nlohmann/json.hpp>

namespace acre::cli {

std::string record_json(const nlohmann::json& record) {
    return record.dump(-1, ' ', true, nlohmann::json::error_handler_t::replace) + "\n";
}

} // namespace acre::cli
