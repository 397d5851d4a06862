// Schema acrewright.explain/1: the tree of how a line came about. Field by field in cli/README.md.
#pragma once

#include <string>

#include "engine/questions/explain.h"

namespace acre::cli {

std::string explain_json(const engine::Step& step);

} // namespace acre::cli
