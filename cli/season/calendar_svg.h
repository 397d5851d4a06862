// Who works where, and when: each machine with its jobs below it, along the days of the season.
#pragma once

#include <cstddef>
#include <string>

#include "engine/questions/season/season.h"

namespace acre::cli {

// At most so many rows; the rest are told as a number.
inline constexpr std::size_t calendar_rows = 120;

std::string calendar_svg(const engine::Season& season);

} // namespace acre::cli
