// Who is where in 80 columns: days running down, machines across.
#pragma once

#include <string>

#include "engine/questions/season/season.h"

namespace acre::cli {

std::string days_text(const engine::Season& season, const engine::UnitsOfJobs& units, bool color);

} // namespace acre::cli
