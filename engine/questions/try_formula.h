// One formula, worked out: by itself with the formulas of the library, or beside the lines of a
// job.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "lang/compile.h"
#include "lang/diag/outcome.h"
#include "lang/loader.h"

namespace acre::engine {

struct TryQuestion {
    std::string formula;
    std::optional<lang::Request> job;   // whose lines it may name
    std::vector<std::string> libraries; // without a job: whose formulas it may call
    std::string from;                   // the name of the text that uses them, for the loader
};

struct TryAnswer {
    std::string written;      // the formula on one line
    std::string with_numbers; // the same with values in the place of names; empty: it has none
    double value = 0;
    std::string text, unit; // the value as people read it; its unit, empty of a choice
};

// Without a value the formula or the job is at fault, or it has no answer.
lang::Outcome<TryAnswer> ask(const TryQuestion& question, lang::Loader& loader);

} // namespace acre::engine
