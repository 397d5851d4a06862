#include "engine/driver.h"

#include <utility>

#include "engine/faults/coverage.h"
#include "engine/faults/unset_givens.h"
#include "engine/job/job_fields.h"

namespace acre::engine {

// Asks another loader and remembers what it answered. Boundaries are not kept: what they give
// stands in the request.
class RememberingLoader : public lang::Loader {
  public:
    RememberingLoader(lang::Loader& inner, UsedTexts& used) : inner_(inner), used_(used) {}
    lang::Outcome<lang::Loaded> load(lang::ReferenceKind kind, std::string_view reference,
                                     std::string_view from) override {
        lang::Outcome<lang::Loaded> outcome = inner_.load(kind, reference, from);
        if (outcome && kind != lang::ReferenceKind::Boundary) {
            used_.names[{kind, std::string(reference), std::string(from)}] = outcome->name;
            used_.texts[outcome->name] = outcome->text;
        }
        return outcome;
    }

    std::vector<std::string> references(lang::ReferenceKind kind, std::string_view from) override {
        return inner_.references(kind, from);
    }

  private:
    lang::Loader& inner_;
    UsedTexts& used_;
};

class Driver {
  public:
    Driver(const lang::Request& request, lang::Loader& loader, Aim aim)
        : job_(new PricedJob),
          loader_(loader, job_->used_),
          aim_(aim) {
        job_->request_ = request;
    }

    lang::Outcome<Job> make() {
        bool done = read();
        if (done && !job_->request_.field_sets && names_boundaries(job_->sheet())) {
            std::string sets;
            done =
                lay_job_fields(*job_, loader_, job_->fields_, sets, *sources_, job_->diagnostics_);
            if (done) {
                job_->request_.field_sets = std::move(sets);
                done = read();
            }
        }
        job_->sources_ = sources_;
        if (!done)
            return lang::Said{std::move(job_->diagnostics_), sources_};
        lang::Said said{job_->diagnostics_, sources_};
        return {Job(std::move(job_)), std::move(said)};
    }

  private:
    // From texts to values, anew each time.
    bool read() {
        sources_ = std::make_shared<lang::SourceMap>();
        job_->sources_ = sources_;
        job_->diagnostics_ = {};
        job_->sheet_ = lang::compile(job_->request_, loader_, *sources_, job_->diagnostics_);
        if (!job_->sheet_)
            return false;
        job_->compiled_ = compile_plan(*job_->sheet_, job_->diagnostics_);
        if (!job_->compiled_)
            return false;
        job_->values_ = evaluate(job_->plan());
        warn_of_coverage(*job_, job_->diagnostics_);
        if (aim_ == Aim::Price)
            report_unset(*job_, job_->diagnostics_);
        return !job_->diagnostics_.has_errors();
    }

    std::shared_ptr<PricedJob> job_;
    std::shared_ptr<lang::SourceMap> sources_;
    RememberingLoader loader_;
    Aim aim_;
};

lang::Outcome<Job> make_job(const lang::Request& request, lang::Loader& loader, Aim aim) {
    return Driver(request, loader, aim).make();
}

} // namespace acre::engine
