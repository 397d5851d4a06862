// A season by itself, tried with every model that it may be for.
#pragma once

#include <cstddef>

#include "engine/questions/check.h"

namespace acre::engine {

// Texts of the models that a season is tried with, what they use and the season with each of them;
// past it Q004, and what was found until then.
inline constexpr std::size_t max_season_check_bytes = std::size_t{64} << 20U;

CheckAnswer check_season(const lang::Request& season, lang::Loader& loader);

} // namespace acre::engine
