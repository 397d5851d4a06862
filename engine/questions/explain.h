// How a line came about, as a tree down to the last given.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "lang/check/sheet.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct ExplainStep {
    std::string name, label, unit;
    double value = 0;
    std::string choice;       // the option taken, instead of a value
    std::string text;         // the value as people read it
    std::string written;      // the formula as written; empty for a plain given
    std::string with_numbers; // the same with the values in the place of names
    std::string within;       // the days that the season sets it for: "2027-11-01 .. 2028-04-30"
    std::string set_by;       // givens: "model", "season", "job", "option", "command line", …
    std::string place;        // "models/deep-rip.rate:14"
    std::string because;
    std::vector<std::string>
        sources; // of the library functions it calls, with how sure we are of each
    std::vector<ExplainStep> inputs; // what the formula rests on, through the branch taken
    bool may_be_negative = false;    // as the model says of it
    bool seen = false;               // shown in full above: inputs are left out here
};

struct ExplainLimits {
    std::uint32_t depth = 0xFFFFFFFF;
};
ExplainStep explain(const PricedJob& job, lang::LineId line, ExplainLimits limits = {});

struct ExplainQuestion {
    std::string line;                 // empty: the whole price
    std::uint32_t depth = 0xFFFFFFFF; // levels below the line; 400 at most
};

// Without a value there is no such line (Q001), or a fault stops what it rests on.
lang::Outcome<ExplainStep> ask(const PricedJob& job, const ExplainQuestion& question);

} // namespace acre::engine
