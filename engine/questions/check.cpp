#include "engine/questions/check.h"

#include <optional>
#include <string>
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

// Where the errors are.
lang::Withheld places_of(const lang::Said& said) {
    lang::Withheld places;
    for (const lang::Diagnostic& one : said.diagnostics.all())
        if (one.severity() == lang::Severity::Error && one.primary.span.file < said.sources->size())
            places.emplace_back(said.sources->file(one.primary.span.file).name(),
                                one.primary.span.begin);
    return places;
}

lang::Said without(lang::Code code, const lang::Said& said) {
    lang::Said kept{{}, said.sources};
    for (const lang::Diagnostic& one : said.diagnostics.all())
        if (one.code != code)
            kept.diagnostics.add(one);
    kept.diagnostics.add_left_out(said.diagnostics);
    return kept;
}

// What one job, option or model comes to.
class Look {
  public:
    Look(lang::Request& request, lang::Loader& loader, Findings& findings)
        : request_(request),
          loader_(loader),
          findings_(findings) {}

    // The job that could be made, perhaps without the values that are at fault; nothing: there was
    // none.
    std::optional<Job> at(const std::string& note) {
        request_.withheld.clear();
        lang::Outcome<Job> job = make_job(request_, loader_, Aim::Look);
        whole_ = job.value.has_value();
        if (job) {
            findings_.add(said_of(**job, std::move(job.said), true), note);
            return *job;
        }
        findings_.add(job.said, note);
        request_.withheld = places_of(job.said);
        lang::Outcome<Job> rest = make_job(request_, loader_, Aim::Look);
        if (!rest)
            return std::nullopt;
        findings_.add(said_of(**rest, std::move(rest.said), false), note);
        return *rest;
    }
    bool whole() const { return whole_; } // the last one had all its values

  private:
    // All that is said on the way to the price, also where it stops short of one. `whole`: no
    // value was withheld.
    lang::Said said_of(const PricedJob& job, lang::Said said, bool whole) const {
        if (request_.kind == lang::FileKind::Job && whole && !lacks_values(job)) {
            said = estimate(job).said;
            if (!job.sheet().prices.empty())
                return said;
        }
        report_faults(job, {}, said.diagnostics);
        // A model may leave open what a job sets.
        return request_.kind == lang::FileKind::Job ? said : without(lang::Code::I603, said);
    }

    lang::Request& request_;
    lang::Loader& loader_;
    Findings& findings_;
    bool whole_ = false;
};

CheckAnswer check_job(lang::Request request, lang::Loader& loader) {
    CheckAnswer answer;
    Findings findings;
    Look look(request, loader, findings);
    const bool chosen = !request.option.empty();
    const std::optional<Job> job = look.at({});
    answer.job = job.value_or(nullptr);
    answer.whole = look.whole();
    if (job && !chosen)
        for (const std::string& title : (*job)->sheet().job.options) {
            request.option = title;
            look.at("with the option \"" + title + "\"");
            ++answer.options;
        }
    answer.said = findings.take();
    return answer;
}

CheckAnswer check_model(lang::Request request, lang::Loader& loader) {
    Findings findings;
    Look look(request, loader, findings);
    const std::optional<Job> job = look.at({});
    return {findings.take(), 0, 0, look.whole(), job.value_or(nullptr)};
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
        return check_model(std::move(whole), loader);
    }
}

} // namespace acre::engine
