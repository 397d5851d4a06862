#include "engine/questions/check.h"

#include <utility>

#include "engine/driver.h"
#include "engine/faults/faults.h"
#include "engine/faults/unset_givens.h"

namespace acre::engine {

lang::Said check(lang::Request request, lang::Loader& loader) {
    const bool is_job = request.kind == lang::FileKind::Job;
    request.every_function = !is_job;
    lang::Outcome<Job> job = make_job(request, loader, is_job ? Aim::Price : Aim::Look);
    // With values missing nothing more can be worked out.
    if (job && (is_job || !lacks_values(**job)))
        report_faults(**job, {}, job.said.diagnostics);
    job.said.diagnostics.sort();
    return std::move(job.said);
}

} // namespace acre::engine
