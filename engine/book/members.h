// Members of a record by name: what is not there, or of another kind, is empty.
#pragma once

#include <cstdint>
#include <string>

#include <nlohmann/json_fwd.hpp>

namespace acre::engine {

std::string text_at(const nlohmann::json& object, const char* member);
double number_at(const nlohmann::json& object, const char* member, double otherwise = 0);
std::int64_t whole_at(const nlohmann::json& object, const char* member);
const nlohmann::json& list_at(const nlohmann::json& object, const char* member);
const nlohmann::json& object_at(const nlohmann::json& object, const char* member);

} // namespace acre::engine
