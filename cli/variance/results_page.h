// What the finished jobs of a book made: for people and for programs.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "cli/shared/quote_book/finished.h"
#include "cli/shared/reply.h"
#include "cli/variance/variance_page.h"
#include "engine/questions/results.h"

namespace acre::cli {

struct ResultsPage {
    engine::ResultsAnswer results;
    std::map<std::string, Income> income; // by the quote of a job
    std::vector<std::string> unfinished;  // accepted quotes
    std::vector<LeftOut> left_out;
};

std::string results_text(const ResultsPage& page, bool color);
// Schema acrewright.results/1. Field by field in cli/README.md.
Document results_json(const ResultsPage& page);

} // namespace acre::cli
