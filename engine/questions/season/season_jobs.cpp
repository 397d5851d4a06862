#include "engine/questions/season/season_jobs.h"

#include <algorithm>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "engine/driver.h"
#include "engine/job/work_calendar.h"
#include "engine/questions/estimate.h"
#include "engine/questions/one_money.h"
#include "engine/questions/season/plain_job.h"
#include "engine/questions/season/shared_plan.h"
#include "lang/diag/suggest.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

// With the line end of its folder; the models of a job are looked for from there.
std::string folder_of(const std::string& path) {
    return path.substr(0, path.rfind('/') + 1);
}

lang::Diagnostic too_much_of(std::string what) {
    return lang::placeless(lang::Code::Q006, "the jobs of the season " + std::move(what));
}

// The calendar of a season is walked day by day.
std::optional<lang::Diagnostic> too_long(const SeasonJob& job) {
    constexpr double longest = 3'660; // days, ten years
    if (job.days >= 0 && job.days <= longest)
        return std::nullopt;
    return lang::placeless(
        lang::Code::Q006,
        fmt::format("`{}` takes {}", job.file, lang::quantity_text(job.days, "days")),
        {fmt::format("a job of a season takes no more than {} days", lang::number_text(longest))},
        {"look at the pace, the acres and the days lost of this job"});
}

lang::Diagnostic without_date(const PricedJob& job) {
    return lang::placeless(lang::Code::I603, "`" + job.request().name + "` has no `date`",
                           {"a season needs the day on which each job starts"},
                           {"give the job a line such as `date 2027-06-21`"});
}

} // namespace

SeasonJobs::SeasonJobs(LoaderMaker loader, Undated undated)
    : loader_(std::move(loader)),
      undated_(undated) {}
SeasonJobs::~SeasonJobs() = default;

std::size_t SeasonJobs::plans() const {
    std::size_t kept = 0;
    for (const auto& [key, plans] : shared_)
        kept += plans.size();
    return kept;
}

lang::Said SeasonJobs::add(const std::string& path, const std::string& text) {
    const std::optional<PlainJob> plain = plain_job(path, text);
    if (!plain || !plain->date)
        return judged(add_slowly(path, text, {}));
    const std::string key = plain->key(folder_of(path));
    // One for each way in which the season sets figures by the day.
    const auto& plans = shared_[key];
    const auto shared = std::find_if(plans.begin(), plans.end(), [&](const auto& plan) {
        return plan->holds_on(day_of(*plain->date));
    });
    if (shared == plans.end())
        return judged(add_slowly(path, text, key));
    steps_ += (*shared)->steps();
    SeasonJob job;
    job.file = path;
    job.title = plain->title;
    job.who = plain->who;
    job.earliest = day_of(*plain->date);
    if (!(*shared)->facts(*plain, job, machines_) || too_long(job))
        return judged(add_slowly(path, text, {}));
    ++put_in_;
    jobs_.push_back(std::move(job));
    return judged({});
}

// All of the way, with every check and message. With a key the plan is kept for the jobs that
// follow.
lang::Said SeasonJobs::add_slowly(const std::string& path, const std::string& text,
                                  const std::string& key) {
    lang::Request request;
    request.every_function = false;
    request.name = path;
    request.kind = lang::FileKind::Job;
    request.text = text;
    const std::unique_ptr<lang::Loader> loader = loader_(path);
    return take(request, *loader, key, nullptr);
}

lang::Said SeasonJobs::add(const lang::Request& request, lang::Loader& loader, QuotedJob quoted) {
    return judged(take(request, loader, {}, &quoted));
}

lang::Said SeasonJobs::take(const lang::Request& request, lang::Loader& loader,
                            const std::string& key, const QuotedJob* quoted) {
    lang::Outcome<Job> made = make_job(request, loader);
    if (!made) {
        for (lang::FileId file = 0; made.said.sources && file < made.said.sources->size(); ++file)
            faulty_bytes_ += made.said.sources->file(file).text().size();
        return std::move(made.said);
    }
    const PricedJob& priced = **made;
    const std::size_t nodes = priced.sheet().nodes.size();
    steps_ += nodes;
    lang::Outcome<Estimate> estimated = estimate(priced);
    if (!estimated)
        return std::move(estimated.said);
    const lang::JobInfo& info = priced.sheet().job;
    if (!info.date && undated_ == Undated::LeftOut) {
        left_out_.push_back(info.title);
        return {};
    }
    if (!info.date) {
        estimated.said.diagnostics.add(without_date(priced));
        return std::move(estimated.said);
    }
    if (!money_)
        money_ = priced.sheet().firm.money;
    if (auto other = in_other_money(*money_, priced)) {
        lang::show_money(*money_);
        estimated.said.diagnostics.add(std::move(*other));
        return std::move(estimated.said);
    }
    SeasonJob job;
    job.file = quoted != nullptr ? quoted->name : request.name;
    job.title =
        info.option.empty() || quoted == nullptr ? info.title : info.title + ", " + info.option;
    job.who = info.who;
    job.earliest = day_of(*info.date);
    if (info.latest)
        job.latest = day_of(*info.latest);
    const std::optional<PlainJob> plain =
        key.empty() ? std::nullopt : plain_job(request.name, priced.request().text);
    auto shared = std::make_unique<SharedPlan>(*made, plain ? &*plain : nullptr);
    shared->facts(job, machines_);
    if (quoted != nullptr) {
        job.price = quoted->price;
        job.chance = quoted->chance;
    }
    if (auto fault = too_long(job)) {
        estimated.said.diagnostics.add(std::move(*fault));
        return std::move(estimated.said);
    }
    jobs_.push_back(std::move(job));
    if (!key.empty() && kept_steps_ + nodes <= max_kept_steps) {
        kept_steps_ += nodes;
        shared_[key].push_back(std::move(shared));
    }
    return std::move(estimated.said);
}

lang::Said SeasonJobs::judged(lang::Said said) {
    const std::size_t machines = machines_.size();
    if (steps_ <= max_season_steps && machines <= max_season_machines &&
        faulty_bytes_ <= max_season_faulty_bytes)
        return said;
    too_much_ = true;
    if (faulty_bytes_ > max_season_faulty_bytes) // the texts of those before fill what is kept
        said = {};
    said.diagnostics.add(
        faulty_bytes_ > max_season_faulty_bytes
            ? too_much_of("that are at fault come to more than " +
                          lang::number_text(max_season_faulty_bytes) + " bytes of text")
        : steps_ > max_season_steps
            ? too_much_of("come to more than " +
                          lang::number_text(static_cast<double>(max_season_steps)) +
                          " steps of calculation")
            : too_much_of("use more than " + lang::number_text(max_season_machines) + " machines"));
    return said;
}

namespace {

// A machine that no job uses, named after an option.
std::optional<lang::Diagnostic> unknown_machine(const SeasonJobs& jobs, const std::string& name) {
    if (jobs.machines().contains(name))
        return std::nullopt;
    std::vector<std::string_view> names;
    for (const auto& [known, machine] : jobs.machines())
        names.push_back(known);
    std::vector<std::string> helps, notes;
    for (const std::string_view near : lang::near_names(name, names, 1))
        helps.push_back("did you mean `" + std::string(near) + "`?");
    if (names.empty()) {
        notes.emplace_back("no model of these jobs says what a machine costs a year");
    } else if (helps.empty()) {
        notes.emplace_back("machines of these jobs:");
        for (const std::string_view known : names)
            notes.back() += " " + std::string(known) + (known == names.back() ? "" : ",");
    }
    return lang::placeless(lang::Code::Q001, "no job uses a machine `" + name + "`",
                           std::move(notes), std::move(helps));
}

// A machine by its name, or by its label where one alone is called so.
std::string name_of_machine(const SeasonJobs& jobs, const std::string& called) {
    std::string name;
    for (const auto& [known, machine] : jobs.machines()) {
        if (known == called)
            return called;
        if (machine.label == called && !called.empty())
            name = name.empty() ? known : called;
    }
    return name.empty() ? called : name;
}

} // namespace

lang::Outcome<Season> ask(const SeasonJobs& jobs, const SeasonQuestion& as_called) {
    SeasonQuestion question = as_called;
    question.fleet.clear();
    for (const auto& [called, owned] : as_called.fleet)
        question.fleet.emplace(name_of_machine(jobs, called), owned);
    question.another = name_of_machine(jobs, as_called.another);
    std::vector<SeasonMachine> machines;
    for (const auto& [name, machine] : jobs.machines())
        machines.push_back(machine);
    for (const auto& [name, owned] : question.fleet)
        if (auto unknown = unknown_machine(jobs, name))
            return *unknown;
    if (!question.another.empty())
        if (auto unknown = unknown_machine(jobs, question.another))
            return *unknown;
    return season(jobs.jobs(), std::move(machines), question);
}

} // namespace acre::engine
