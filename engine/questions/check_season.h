// A season by itself, tried with every model that it may be for.
#pragma once

#include "engine/questions/check.h"

namespace acre::engine {

CheckAnswer check_season(const lang::Request& season, lang::Loader& loader);

} // namespace acre::engine
