#include "engine/field/properties_json.h"

#include <algorithm>
#include <string_view>

namespace acre::engine {
namespace {

constexpr std::size_t most_properties = 40;
constexpr std::size_t most_bytes = 200;

bool is_name(std::string_view key) {
    constexpr std::string_view name = "name";
    return std::equal(key.begin(), key.end(), name.begin(), name.end(),
                      [](char a, char b) { return a == b || a == b - 'a' + 'A'; });
}

// Empty: neither a text nor a number, or too long.
std::string plain_text(const nlohmann::json& value) {
    std::string text;
    if (value.is_string())
        text = value.get<std::string>();
    else if (value.is_number())
        text = value.dump();
    return text.size() > most_bytes ? std::string() : text;
}

const nlohmann::json* properties_of(const nlohmann::json& feature) {
    const auto it = feature.find("properties");
    return it == feature.end() || !it->is_object() ? nullptr : &*it;
}

} // namespace

std::string feature_name(const nlohmann::json& feature) {
    if (const nlohmann::json* properties = properties_of(feature))
        for (const auto& [key, value] : properties->items())
            if (is_name(key))
                if (std::string text = plain_text(value); !text.empty())
                    return text;
    return {};
}

std::vector<BoundaryProperty> feature_properties(const nlohmann::json& feature) {
    std::vector<BoundaryProperty> result;
    if (const nlohmann::json* properties = properties_of(feature))
        for (const auto& [key, value] : properties->items())
            if (std::string text = plain_text(value); !text.empty() && !is_name(key) &&
                                                      key.size() <= most_bytes &&
                                                      result.size() < most_properties)
                result.push_back({key, std::move(text)});
    return result;
}

} // namespace acre::engine
