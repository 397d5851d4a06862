#include "engine/driver.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "engine/faults/coverage.h"
#include "engine/faults/late_job.h"
#include "engine/faults/unset_givens.h"
#include "engine/job/job_fields.h"
#include "engine/words/money.h"
#include "lang/units/money.h"
#include "lang/units/number_text.h"

namespace acre::engine {

// Asks another loader and remembers what it answered: boundaries too, though what they give stands
// in the request, so that a map can be drawn again.
class RememberingLoader : public lang::Loader {
  public:
    RememberingLoader(lang::Loader& inner, UsedTexts& used) : inner_(inner), used_(used) {}
    lang::Outcome<lang::Loaded> load(lang::ReferenceKind kind, std::string_view reference,
                                     std::string_view from) override {
        lang::Outcome<lang::Loaded> outcome = inner_.load(kind, reference, from);
        if (outcome) {
            used_.names[{kind, std::string(reference), std::string(from)}] = outcome->name;
            used_.texts[outcome->name] = outcome->text;
        }
        return outcome;
    }

    std::vector<std::string> references(lang::ReferenceKind kind, std::string_view from) override {
        return inner_.references(kind, from);
    }
    lang::KeptTrees* kept_trees() override { return inner_.kept_trees(); }

  private:
    lang::Loader& inner_;
    UsedTexts& used_;
};

// Past this a price is not kept to the cent.

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
            lang::Diagnostics of_fields;
            done = lay_job_fields(*job_, loader_, job_->fields_, sets, *sources_, of_fields);
            if (done) {
                job_->request_.field_sets = std::move(sets);
                done = read();
            }
            // Texts are numbered anew by a second reading: what points into one is of the first.
            for (lang::Diagnostic said : of_fields.all()) {
                if (done)
                    said.primary = {{lang::no_file, 0, 0}, {}};
                job_->diagnostics_.add(std::move(said));
            }
        }
        job_->sources_ = sources_;
        if (done && aim_ == Aim::Price)
            add_money_of_slips();
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
        std::optional<lang::CheckedSheet> sheet =
            lang::compile(job_->request_, loader_, *sources_, job_->diagnostics_);
        if (!sheet)
            return false;
        job_->sheet_ = std::make_shared<const lang::CheckedSheet>(std::move(*sheet));
        lang::show_money(job_->sheet().firm.money);
        job_->compiled_ = compile_plan(*job_->sheet_, job_->diagnostics_);
        if (!job_->compiled_)
            return false;
        job_->values_ = evaluate(job_->plan());
        warn_of_coverage(*job_, job_->diagnostics_);
        const bool laid = job_->request_.field_sets || !names_boundaries(job_->sheet());
        if (aim_ == Aim::Price && laid) // a boundary has yet to give its values
            report_unset(*job_, job_->diagnostics_);
        if (laid && !job_->diagnostics_.has_errors())
            warn_of_dates(*job_, job_->diagnostics_);
        return !job_->diagnostics_.has_errors();
    }

    // What a name of the season that looks like a slip comes to: the price with the name it is
    // near.
    void add_money_of_slips() {
        constexpr int most_tried = 3;
        const auto& all = job_->diagnostics_.all();
        if (job_->sheet().price_total == lang::none || job_->diagnostics_.left_out() > 0 ||
            std::none_of(all.begin(), all.end(), is_slip))
            return;
        lang::Diagnostics told;
        int tried = 0;
        for (lang::Diagnostic diagnostic : all) {
            if (is_slip(diagnostic) && ++tried <= most_tried)
                add_money(diagnostic);
            told.add(std::move(diagnostic));
        }
        job_->diagnostics_ = std::move(told);
    }
    static bool is_slip(const lang::Diagnostic& diagnostic) {
        return diagnostic.code == lang::Code::L807 && !diagnostic.helps.empty() &&
               diagnostic.helps.front().edit;
    }

    void add_money(lang::Diagnostic& diagnostic) {
        const lang::Edit& edit = *diagnostic.helps.front().edit;
        const lang::SourceFile& season = sources_->file(edit.span.file);
        std::string text(season.text());
        text.replace(edit.span.begin, edit.span.end - edit.span.begin, edit.replacement);
        lang::Request request = job_->request_;
        request.season = lang::Loaded{std::string(season.name()), std::move(text)};
        const double now = job_->value(job_->sheet().price_total);
        const std::optional<double> with = price_of(request);
        if (!with || !has_cents(now))
            return;
        const auto money = [](double value) { return lang::cents_text(to_cents(value)); };
        diagnostic.notes.push_back(money(*with) == money(now)
                                       ? fmt::format("the price, {}, would be the same with `{}`",
                                                     money(now), edit.replacement)
                                       : fmt::format("the price is {}; with `{}` it would be {}",
                                                     money(now), edit.replacement, money(*with)));
    }

    std::optional<double> price_of(const lang::Request& request) {
        lang::SourceMap sources;
        lang::Diagnostics unsaid;
        const auto sheet = lang::compile(request, loader_, sources, unsaid);
        if (!sheet || (*sheet)->price_total == lang::none)
            return std::nullopt;
        const auto compiled = compile_plan(*sheet, unsaid);
        if (!compiled)
            return std::nullopt;
        const Slot slot = compiled->plan.line_slot[(*sheet)->price_total];
        const double price = slot == no_slot ? NAN : evaluate(compiled->plan).slot[slot];
        return has_cents(price) ? std::optional(price) : std::nullopt;
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
