// Actual against quote: for people and for programs.
#pragma once

#include <string>

#include "cli/shared/reply.h"
#include "engine/questions/variance.h"

namespace acre::cli {

// What the customer is billed, $, and from where: "bill" of that number, the quote's "terms",
// "terms without fuel steps", or as it was "agreed"; `why` then says why there is no bill. Of a job
// that is not finished it is as agreed, and `bill` and `billed` are what the book has so far.
struct Income {
    double amount = 0;
    std::string from, bill, why;
    double billed = 0; // the work in the bill
};
struct VariancePage {
    engine::VarianceAnswer variance;
    Income income;
};

std::string variance_text(const VariancePage& page, bool color);
// Schema acrewright.variance/4. Field by field in cli/README.md.
Document variance_json(const VariancePage& page);

} // namespace acre::cli
