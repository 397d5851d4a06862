// A season with what the jobs say: the whole of the old one, and in it the figures that were
// learned, each with its reason. Everything else stays as it was written.
#pragma once

#include <string>
#include <string_view>

#include "engine/learning/learn.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

// `name`: what the old season's text is called where it is at fault. Its own `set` of a figure gets
// the new value and reason, a swing beside it stays; what it does not set comes at its end.
lang::Outcome<std::string> proposed_season(const std::string& name, const std::string& text,
                                           const LearnAnswer& answer);

// As a season writes the value that was learned, in no more digits than its interval leaves.
std::string learned_text(const LearnedFigure& figure);

} // namespace acre::engine
