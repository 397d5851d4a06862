// A job of the program held against the second reader.
#pragma once

#include <cstddef>

#include "engine/job/priced_job.h"
#include "lang/compile.h"
#include "lang/loader.h"

namespace acre::fuzz::second {

struct Held {
    std::size_t lines = 0, unknown = 0,
                prices = 0; // lines whose value both have; prices to the cent
};

// Every line of the job has the units and, within what a double may be off by, the value of the
// second reader; every price is charged to its cent. Ends the program where not.
Held hold(const engine::PricedJob& job, const lang::Request& request, lang::Loader& loader);

} // namespace acre::fuzz::second
