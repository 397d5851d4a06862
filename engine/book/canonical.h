// Canonical JSON: one text for one value, so that a seal over it means something. Members sorted by
// the bytes of their names, no blanks, numbers as the shortest decimal that reads back to the same
// double, whole numbers without a point, UTF-8 as it is (RFC 8785 without its rule for sorting by
// UTF-16 units, which differs only outside the basic plane).
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

namespace acre::engine {

inline constexpr int max_record_depth = 64;

// Throws nothing for valid UTF-8; numbers must be finite.
std::string canonical(const nlohmann::json& value);

// Reads a text that must be canonical itself (one line end behind it is allowed and expected).
// Empty if it is not JSON or not canonical to the last byte.
std::optional<nlohmann::json> read_canonical(std::string_view text);

} // namespace acre::engine
