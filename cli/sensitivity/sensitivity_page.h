// What moves a line: the page, the picture and the JSON of one answer.
#pragma once

#include <string>

#include "cli/shared/chart/bars.h"
#include "cli/shared/reply.h"
#include "engine/questions/what_if/sensitivity.h"

namespace acre::cli {

struct SensitivityLook {
    bool by_block = false;           // a table of blocks
    bool all = false, color = false; // all: every given, also those that move it little
};

std::string sensitivity_text(const engine::SensitivityAnswer& answer, SensitivityLook look);
std::string sensitivity_svg(const engine::SensitivityAnswer& answer, SensitivityLook look);
Document sensitivity_json(const engine::SensitivityAnswer& answer);

// Of page and picture: the givens that do most first, as many as the look has room for.
Bars sensitivity_bars(const engine::SensitivityAnswer& answer, SensitivityLook look);
// How many of so many a page shows.
std::size_t sensitivity_rows(std::size_t all, SensitivityLook look);

} // namespace acre::cli
