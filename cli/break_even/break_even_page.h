// Where a line reaches a value: the page and the JSON of one answer.
#pragma once

#include <string>

#include "cli/shared/job.h"
#include "engine/questions/what_if/break_even.h"

namespace acre::cli {

struct BreakEvenPage {
    const engine::PricedJob* job = nullptr;
    engine::BreakEven answer;
    std::string against; // title of the other job; empty: against a value
    std::string asked;   // in the user's words, "the cost is $95,078.00"
    bool names = false, color = false;
};

std::string break_even_text(const BreakEvenPage& page);
std::string break_even_json(const BreakEvenPage& page);

} // namespace acre::cli
