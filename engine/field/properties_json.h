// What a feature of a boundary file says besides its shape.
#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "engine/field/boundary.h"

namespace acre::engine {

// Its name: the text or number under `name`, however that is spelled; empty: none.
std::string feature_name(const nlohmann::json& feature);

// Texts and numbers, in the order of the names, at most forty of at most two hundred bytes; others
// are left out.
std::vector<BoundaryProperty> feature_properties(const nlohmann::json& feature);

} // namespace acre::engine
