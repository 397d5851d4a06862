// How a line came about, as a tree to be read from the top.
#pragma once

#include <string>

#include "engine/questions/changed.h"
#include "engine/questions/explain.h"

namespace acre::cli {

// What `--set` makes of the line, above the tree, with an empty line after it.
std::string changed_text(const engine::ChangedFigure& changed, bool color);

std::string explain_text(const engine::ExplainStep& step, bool color = false);

} // namespace acre::cli
