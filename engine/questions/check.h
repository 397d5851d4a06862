// What is wrong with a text or doubtful in it, as much of it as can be found in one go.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/job/priced_job.h"
#include "lang/compile.h"
#include "lang/diag/outcome.h"
#include "lang/loader.h"

namespace acre::engine {

struct CheckAnswer {
    std::vector<lang::Said> said; // each finding once; none empty
    std::size_t options = 0;      // that a job was worked out with, besides as it stands
    std::size_t models = 0;       // that a season was tried with
    bool whole = false;           // `job` has all its values: it is the one that `price` prices
    Job job; // as it stands, perhaps without the values that are at fault; null: none was made
};

// A job is priced as it stands and with each of its options, or with the one that is asked for. A
// model is worked out if it has all its values; what a job would set may be missing. A season is
// tried with every model that the loader can name: a name that none of them has is a slip (L807).
CheckAnswer check(const lang::Request& request, lang::Loader& loader);

} // namespace acre::engine
