// What finished jobs say of a season, ready to be shown.
#pragma once

#include <string>
#include <vector>

#include "cli/shared/quote_book/finished.h"
#include "cli/shared/reply.h"
#include "engine/learning/learn.h"

namespace acre::cli {

struct LearnPage {
    std::string season;  // the file
    std::string written; // the proposal; empty: none was asked for
    engine::LearnAnswer answer;
    std::vector<LeftOut> left_out;
};

std::string learn_text(const LearnPage& page, bool color);

// Schema acrewright.learn/1. Field by field in cli/README.md.
Document learn_json(const LearnPage& page);

} // namespace acre::cli
