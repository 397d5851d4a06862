#include "cli/season/report.h"
#include "cli/season/season_words.h"
#include "cli/shared/json/value.h"
#include "lang/units/calendar.h"

namespace acre::cli {
namespace {

Json job_json(const engine::SeasonJob& job) {
    Json machines = Json::object();
    Json hours = Json::object();
    for (const engine::MachineUse& use : job.uses) {
        hours[use.machine] = number(use.hours);
        machines[use.machine] = use.units;
    }
    return {{"file", job.file},
            {"title", job.title},
            {"for", job.who},
            {"earliest", lang::date_text(job.earliest)},
            {"latest", job.latest ? Json(lang::date_text(*job.latest)) : Json(nullptr)},
            {"start", lang::date_text(job.dated.start)},
            {"finish", lang::date_text(job.dated.finish)},
            {"days", job.work_days()},
            {"chance", number(job.chance)},
            {"price", number(job.price)},
            {"direct_cost", number(job.cost)},
            {"overhead", number(job.overhead)},
            {"contribution", number(job.contribution())},
            {"profit", number(job.profit())},
            {"fixed_charged", number(job.fixed)},
            {"left", number(job.left())},
            {"acres", number(job.acres)},
            {"gallons", number(job.gallons)},
            {"hours", std::move(hours)},
            {"machines", std::move(machines)}};
}

Json machine_json(const engine::MachineRow& row) {
    Json units = Json::array();
    for (const engine::UnitRow& unit : row.units)
        units.push_back({{"name", unit.name},
                         {"booked", number(unit.booked)},
                         {"share", number(unit.share)},
                         {"fixed_at_booked", number(unit.fixed_at_booked)},
                         {"not_covered", number(unit.not_covered)},
                         {"idle", number(unit.idle)},
                         {"days_held", unit.days_held}});
    return {{"name", row.machine.name},
            {"label", machine_words(row.machine)},
            {"owned", row.owned},
            {"most_wanted", row.most_wanted},
            {"booked", number(row.booked)},
            {"assumed", number(row.machine.hours_per_year)},
            {"fixed_per_year", number(row.machine.fixed_per_year)},
            {"fixed", number(row.fixed)},
            {"not_covered", number(row.not_covered)},
            {"idle_hour", number(row.idle_hour)},
            {"disputed", row.machine.disputed},
            {"units", std::move(units)}};
}

Json month_json(const engine::MonthRow& row) {
    return {{"year", row.year},
            {"month", row.month},
            {"job_days", number(row.job_days)},
            {"acres", number(row.acres)},
            {"gallons", number(row.gallons)},
            {"spent", number(row.spent)},
            {"billed", number(row.billed)},
            {"received", number(row.received)},
            {"left", number(row.left)},
            {"left_so_far", number(row.left_so_far)},
            {"hours", row.hours}};
}

Json clash_json(const engine::Season& season, const engine::Clash& clash) {
    return {{"machine", clash.machine},
            {"first", season.jobs[clash.first].title},
            {"second", clash.second == engine::Clash::none ? Json(nullptr)
                                                           : Json(season.jobs[clash.second].title)},
            {"from", lang::date_text(clash.from)},
            {"to", lang::date_text(clash.to)},
            {"wanted", clash.wanted},
            {"owned", clash.owned},
            {"offered", clash.may_be}};
}

Json plan_json(const engine::Season& season) {
    if (!season.plan)
        return nullptr;
    Json jobs = Json::array();
    for (std::size_t i = 0; i < season.jobs.size(); ++i) {
        const engine::PlannedJob& job = season.plan->jobs[i];
        jobs.push_back({{"title", season.jobs[i].title},
                        {"fits", job.fits},
                        {"start", job.fits ? Json(lang::date_text(job.at.start)) : Json(nullptr)},
                        {"finish", job.fits ? Json(lang::date_text(job.at.finish)) : Json(nullptr)},
                        {"days_moved", job.moved},
                        {"priced_otherwise",
                         job.fits ? Json(engine::priced_otherwise(season.jobs[i], job.at.start))
                                  : Json::array()}});
    }
    return {{"jobs", std::move(jobs)},
            {"last_day", lang::date_text(season.plan->last_day)},
            {"proved", season.plan->proved},
            {"days_moved", season.plan->days_moved},
            {"left_out", season.plan->left_out},
            {"lost", number(season.plan->lost)},
            {"by_roads", season.plan->by_roads},
            {"days_for_moves", season.plan->days_for_moves},
            {"all_by",
             season.plan->all_by ? Json(lang::date_text(*season.plan->all_by)) : Json(nullptr)}};
}

Json another_json(const engine::Season& season) {
    if (!season.another)
        return nullptr;
    const engine::OneMore& more = *season.another;
    Json fit = Json::array();
    Json never = Json::array();
    for (const std::size_t job : more.fit_now)
        fit.push_back(season.jobs[job].title);
    for (const std::size_t job : more.never)
        never.push_back(season.jobs[job].title);
    return {{"machine", more.machine},
            {"owned", more.owned},
            {"answered", more.answered},
            {"proved", more.proved},
            {"jobs_that_fit", std::move(fit)},
            {"jobs_that_never_fit", std::move(never)},
            {"gained", number(more.gained)},
            {"fixed", number(more.fixed)},
            {"net", number(more.net())},
            {"left_per_acre", number(more.left_per_acre)},
            {"acres", number(more.acres)},
            {"days_moved_without", more.days_moved_without},
            {"days_moved_with", more.days_moved_with}};
}

Json chain_json(const engine::Season& season, const SeasonNames& names) {
    if (!names.chain)
        return nullptr;
    const auto title = [&](std::size_t job) {
        return job == engine::ChainedJob::none ? Json(nullptr) : Json(season.jobs[job].title);
    };
    Json jobs = Json::array();
    for (const engine::ChainedJob& job : names.chain->jobs)
        jobs.push_back({{"title", season.jobs[job.job].title},
                        {"after", title(job.after)},
                        {"before", title(job.before)},
                        {"quoted", number(job.quoted.price)},
                        {"charged", number(job.chained.price)},
                        {"cost_saved", number(job.quoted.cost - job.chained.cost)}});
    return {{"jobs", std::move(jobs)},
            {"cost_saved", number(names.chain->cost_saved)},
            {"charged_less", number(names.chain->charged_less)},
            {"not_taken", names.chain->why_not}};
}

Json cover_json(const engine::Cover& cover) {
    return {{"fixed", number(cover.fixed)},         {"overhead", number(cover.overhead)},
            {"overhead_is_carried", cover.carried}, {"need", number(cover.need())},
            {"left", number(cover.left)},           {"over", number(cover.over())},
            {"share", number(cover.share())},       {"price", number(cover.price)},
            {"acres", number(cover.acres)},         {"machine", cover.machine},
            {"hours", number(cover.hours)}};
}

} // namespace

Document season_json(const engine::Season& season, const SeasonNames& names) {
    const char* counted = names.counted == Counted::Folder ? "folder"
                          : names.counted == Counted::Jobs ? "jobs"
                                                           : "accepted";
    Json out = {
        {"schema", "acrewright.season/4"}, {"money", money_json()},     {"counted", counted},
        {"without", names.without},        {"undated", names.undated},  {"jobs", Json::array()},
        {"doubles", Json::array()},        {"machines", Json::array()}, {"hired", Json::array()},
        {"months", Json::array()},         {"clashes", Json::array()}};
    for (const engine::SeasonJob& job : season.jobs)
        out["jobs"].push_back(job_json(job));
    if (names.counted == Counted::Folder)
        for (const engine::Double& pair : season.doubles.listed)
            out["doubles"].push_back({{"first", season.jobs[pair.first].title},
                                      {"second", season.jobs[pair.second].title},
                                      {"boundary", pair.boundary},
                                      {"acres", pair.acres},
                                      {"dates", pair.dates}});
    for (const engine::MachineRow& row : season.machines)
        out["machines"].push_back(machine_json(row));
    for (const engine::SeasonMachine& machine : season.hired)
        out["hired"].push_back({{"name", machine.name}, {"label", machine_words(machine)}});
    for (const engine::MonthRow& row : season.months)
        out["months"].push_back(month_json(row));
    for (const engine::Clash& clash : season.clashes.listed)
        out["clashes"].push_back(clash_json(season, clash));
    out["all_clashes"] = season.clashes.all;
    out["plan"] = plan_json(season);
    out["chain"] = chain_json(season, names);
    out["another"] = another_json(season);
    out["price"] = number(season.sums.price);
    out["direct_cost"] = number(season.sums.cost);
    out["overhead"] = number(season.sums.overhead);
    out["contribution"] = number(season.sums.contribution());
    out["profit"] = number(season.sums.profit());
    out["fixed"] = number(season.cover.fixed);
    out["cover"] = cover_json(season.cover);
    return answered(std::move(out));
}

} // namespace acre::cli
