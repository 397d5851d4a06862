// How a line came about, as a tree to be read from the top.
#pragma once

#include <string>

#include "engine/questions/explain.h"

namespace acre::cli {

std::string explain_text(const engine::Step& step, bool color = false);

// "$4.35/gal", "80 ac", or the name of the choice.
std::string value_text(const engine::Step& step);

} // namespace acre::cli
