// Where a line reaches a value: the page and the JSON of one answer.
#pragma once

#include <string>

#include "cli/shared/reply.h"
#include "engine/questions/what_if/break_even.h"

namespace acre::cli {

std::string break_even_text(const engine::BreakEvenAnswer& answer, bool color);
Document break_even_json(const engine::BreakEvenAnswer& answer);

} // namespace acre::cli
