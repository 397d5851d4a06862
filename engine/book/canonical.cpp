#include "engine/book/canonical.h"

#include <cmath>

#include <nlohmann/json.hpp>

namespace acre::engine {

std::string canonical(const nlohmann::json& value) {
    // nlohmann::json keeps members sorted by bytes and writes the shortest decimal; that is the
    // whole rule.
    return value.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::optional<nlohmann::json> read_canonical(std::string_view text) {
    if (text.empty() || text.back() != '\n')
        return std::nullopt;
    text.remove_suffix(1);
    bool too_deep = false;
    const auto on_event = [&](int depth, nlohmann::json::parse_event_t, nlohmann::json&) {
        too_deep = too_deep || depth > max_record_depth;
        return !too_deep;
    };
    nlohmann::json value = nlohmann::json::parse(text, on_event, false);
    if (value.is_discarded() || too_deep || canonical(value) != text)
        return std::nullopt;
    return value;
}

} // namespace acre::engine
