// A request priced in one go.
#pragma once

#include "engine/driver.h"
#include "engine/questions/estimate.h"

namespace acre::engine {

struct PricedNow {
    lang::Outcome<Job> job;
    lang::Outcome<Estimate> estimate;

    // What was said first of a job without a price.
    const lang::Diagnostics& said() const { return (job ? estimate.said : job.said).diagnostics; }
};

inline PricedNow price_of(const lang::Request& request, lang::Loader& loader) {
    PricedNow now;
    now.job = make_job(request, loader);
    if (now.job)
        now.estimate = estimate(**now.job);
    return now;
}

} // namespace acre::engine
