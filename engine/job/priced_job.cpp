#include "engine/job/priced_job.h"

#include <limits>

#include "engine/plan/plan_roots.h"

namespace acre::engine {

double PricedJob::value(lang::LineId line) const {
    const Slot slot = line == lang::none ? no_slot : slot_of(compiled(), line);
    return slot == no_slot ? std::numeric_limits<double>::quiet_NaN() : values_.slot[slot];
}

Job PricedJob::with_inputs(std::span<const double> inputs) const {
    std::shared_ptr<PricedJob> job(new PricedJob);
    job->request_ = request_;
    job->used_ = used_;
    job->sources_ = sources_;
    job->diagnostics_ = diagnostics_;
    job->sheet_ = sheet_;
    job->compiled_ = compiled_;
    job->fields_ = fields_;
    for (std::size_t i = 0; i < inputs.size(); ++i)
        job->compiled_->plan.inputs[i].value = inputs[i];
    job->values_ = evaluate(job->plan());
    return job;
}

} // namespace acre::engine
