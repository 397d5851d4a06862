// JSON with the places of its arrays, for messages that point into a boundary file.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

namespace acre::engine {

enum class JsonFault { None, NotJson, TooDeep };

struct ReadJson {
    nlohmann::json root;                     // without a fault
    std::vector<std::uint32_t> array_starts; // byte offsets, in the order in which arrays begin
    JsonFault fault = JsonFault::None;
    std::size_t stopped_at = 0; // with a fault: the last byte that was read
};

ReadJson read_json(std::string_view text, int most_depth);

} // namespace acre::engine
