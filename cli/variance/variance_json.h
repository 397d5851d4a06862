// Schema acrewright.variance/1. Field by field in cli/README.md.
#pragma once

#include <string>

#include "engine/questions/variance.h"

namespace acre::cli {

std::string variance_json(const engine::Variance& variance, const std::string& quote);

} // namespace acre::cli
