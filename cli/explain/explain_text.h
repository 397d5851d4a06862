// How a line came about, as a tree to be read from the top.
#pragma once

#include <string>

#include "engine/questions/explain.h"

namespace acre::cli {

std::string explain_text(const engine::ExplainStep& step, bool color = false);

} // namespace acre::cli
