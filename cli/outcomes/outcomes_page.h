// Whether quoted risks were honest, and which quotes win, ready to be shown.
#pragma once

#include <string>
#include <vector>

#include "cli/shared/quote_book/finished.h"
#include "cli/shared/reply.h"
#include "engine/learning/outcomes.h"
#include "engine/learning/wins.h"

namespace acre::cli {

struct OutcomesPage {
    engine::OutcomesAnswer risk;
    engine::WinsAnswer wins;
    std::vector<LeftOut> left_out;
};

std::string outcomes_text(const OutcomesPage& page, bool color);

// Schema acrewright.outcomes/1. Field by field in cli/README.md.
Document outcomes_json(const OutcomesPage& page);

} // namespace acre::cli
