// The list of units as a page and as JSON.
#pragma once

#include <string>

#include "cli/shared/reply.h"
#include "engine/questions/measures.h"

namespace acre::cli {

std::string measures_text(const engine::MeasuresAnswer& answer, bool color);
Document measures_json(const engine::MeasuresAnswer& answer);
Document conversion_json(const engine::ConversionAnswer& answer);

} // namespace acre::cli
