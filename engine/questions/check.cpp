#include "engine/questions/check.h"

#include <utility>

#include "engine/driver.h"
#include "engine/faults/faults.h"
#include "engine/faults/price_steps.h"
#include "engine/faults/unset_givens.h"
#include "engine/questions/check_season.h"
#include "engine/questions/estimate.h"
#include "engine/questions/findings.h"

namespace acre::engine {
namespace {

// All that is said of a job on the way to its price, also where it stops short of one.
lang::Said said_of(const PricedJob& job, lang::Said said) {
    if (lacks_values(job)) {
        report_unset(job, said.diagnostics);
        report_price_steps(job, said.diagnostics);
        return said; // nothing more can be worked out
    }
    said = estimate(job).said;
    if (job.sheet().prices.empty())
        report_faults(job, {}, said.diagnostics);
    return said;
}

CheckAnswer check_job(lang::Request request, lang::Loader& loader) {
    CheckAnswer answer;
    Findings findings;
    lang::Outcome<Job> job = make_job(request, loader, Aim::Look);
    if (!job) {
        findings.add(job.said);
        answer.said = findings.take();
        return answer;
    }
    findings.add(said_of(**job, std::move(job.said)));
    const std::vector<std::string> options =
        request.option.empty() ? (*job)->sheet().job.options : std::vector<std::string>();
    for (const std::string& title : options) {
        request.option = title;
        lang::Outcome<Job> with = make_job(request, loader, Aim::Look);
        findings.add(with ? said_of(**with, std::move(with.said)) : with.said,
                     "with the option \"" + title + "\"");
        ++answer.options;
    }
    answer.said = findings.take();
    return answer;
}

CheckAnswer check_model(const lang::Request& request, lang::Loader& loader) {
    Findings findings;
    lang::Outcome<Job> job = make_job(request, loader, Aim::Look);
    if (job && !lacks_values(**job))
        report_faults(**job, {}, job.said.diagnostics);
    else if (job)
        report_price_steps(**job, job.said.diagnostics);
    findings.add(job.said);
    return {findings.take(), 0, 0};
}

} // namespace

CheckAnswer check(const lang::Request& request, lang::Loader& loader) {
    lang::Request whole = request;
    whole.every_function = request.kind == lang::FileKind::Model;
    switch (request.kind) {
    case lang::FileKind::Job:
        return check_job(std::move(whole), loader);
    case lang::FileKind::Season:
        return check_season(whole, loader);
    default:
        return check_model(whole, loader);
    }
}

} // namespace acre::engine
