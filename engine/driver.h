// The one way from texts to numbers: every stage in order, for whoever brings a loader.
#pragma once

#include "engine/job/priced_job.h"
#include "lang/compile.h"
#include "lang/diag/outcome.h"
#include "lang/loader.h"

namespace acre::engine {

enum class Aim {
    Price, // required values that are missing are an error (I603)
    Look,  // what a job would set may stay open: a model by itself is only looked at
};

// Reads, checks, compiles and evaluates. A job that names boundaries is laid out with its own
// spacing and read again with what that gives, unless the request has the values already. The
// values are not judged yet: see report_faults, and the questions, which do. What is said points
// into the texts, also when there is no job.
lang::Outcome<Job> make_job(const lang::Request& request, lang::Loader& loader,
                            Aim aim = Aim::Price);

} // namespace acre::engine
