// Canonical JSON: one text for one value, so that a seal over it means something. RFC 8785: members
// sorted by the UTF-16 units of their names, no blanks, numbers as ECMAScript prints them, UTF-8 as
// it is.
//
// Records of version 1 had rules of their own: sorted by bytes, whole numbers that were doubles
// with ".0". They are read by these, and never written again.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include "engine/book/canonical_text.h"

namespace acre::engine {

inline constexpr int max_record_depth = 64;

inline constexpr std::string_view record_schema = "acrewright.record/2";
bool is_version_1(const nlohmann::json& record); // it has no schema, or that of version 1
bool is_version_1(const JsonValue& record);

// Numbers must be finite; a byte that is no UTF-8 becomes U+FFFD.
std::string canonical(const nlohmann::json& value);
std::string canonical_1(const nlohmann::json& value); // of version 1

// A number as ECMAScript prints it: "9007199254740992", "1e+21", "0.000001", "1e-7".
std::string number_as_printed(double value);
bool is_as_printed(std::string_view written, double value);

// `text` without bytes that are no UTF-8: U+FFFD stands in their place.
std::string utf8_text(std::string_view text);

// Reads a text that must be canonical itself, by the rules of its version, with a line end after
// it. Empty if it is not JSON or not canonical to the last byte.
// `sealed`: gets its sealed_text.
// The text must stay where it is.
std::optional<CanonicalText> read_canonical(std::string_view text, std::string* sealed = nullptr);

// What the seal of a record is over: all but seal and signature, by the rules of its version.
std::string sealed_text(const nlohmann::json& record);
std::string sealed_text(const JsonValue& record); // not of version 1

} // namespace acre::engine
