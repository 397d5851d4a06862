// Days running down, machines across, as pictures: as many as it takes for every machine to be wide
// enough for names and for none to be higher than a page.
#pragma once

#include <string>

#include "engine/questions/season/season.h"

namespace acre::cli {

// `title` of the first picture.
std::string days_svg(const engine::Season& season, const engine::UnitsOfJobs& units,
                     const std::string& title);

} // namespace acre::cli
