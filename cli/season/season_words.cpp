#include "cli/season/season_words.h"

#include <algorithm>
#include <map>
#include <tuple>

#include <fmt/format.h>

#include "engine/words/choice_label.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::string titles(const engine::Season& season, const std::vector<std::size_t>& jobs) {
    constexpr std::size_t most = 6;
    std::string text;
    for (std::size_t i = 0; i < jobs.size() && i < most; ++i)
        text += (i == 0 ? "" : "; ") + job_title(season, jobs[i]);
    if (jobs.size() > most)
        text += fmt::format("; and {} more", count_text(jobs.size() - most));
    return text;
}

} // namespace

std::string machine_words(const engine::SeasonMachine& machine) {
    return machine.label.empty() ? engine::choice_label(machine.name) : machine.label;
}

std::string machine_words(const engine::Season& season, const std::string& name) {
    for (const engine::MachineRow& row : season.machines)
        if (row.machine.name == name)
            return machine_words(row.machine);
    return engine::choice_label(name);
}

std::string unit_words(const engine::MachineRow& row, std::size_t unit) {
    const std::string& name = row.units[unit].name;
    return machine_words(row.machine) + (name.empty() ? "" : " " + name);
}

std::string job_title(const engine::Season& season, std::size_t job) {
    const engine::SeasonJob& of = season.jobs[job];
    return of.chance < 1 ? of.title + " (offered)" : of.title;
}

std::string days_words(long first, long last) {
    if (first == last)
        return lang::day_text(first);
    std::string from = lang::day_text(first);
    if (lang::month_count(first) / 12 == lang::month_count(last) / 12)
        from = from.substr(0, from.find(','));
    return from + " to " + lang::day_text(last);
}

std::string job_count(std::size_t jobs) {
    return jobs == 1 ? "1 job" : count_text(jobs) + " jobs";
}

std::string day_count(long days) {
    return days == 1 ? "1 day" : lang::number_text(static_cast<double>(days)) + " days";
}

std::string counted_words(const engine::Season& season, const SeasonNames& names) {
    std::string text;
    const auto offers = static_cast<std::size_t>(
        std::count_if(season.jobs.begin(), season.jobs.end(),
                      [](const engine::SeasonJob& job) { return job.chance < 1; }));
    switch (names.counted) {
    case Counted::Folder:
        text = "Every dated job of the folder counts as work, whether anybody said yes or not.";
        break;
    case Counted::Jobs:
        text = "These jobs count as work: those that were named.";
        break;
    case Counted::Book:
        text = "Accepted quotes count as work, at the prices and costs quoted. `acrewright "
               "variance` has what finished jobs made.";
        break;
    }
    if (offers > 0)
        text += fmt::format(
            " {} still offered: money, hours and acres count by {} of each.",
            offers == 1 ? "1 quote is" : count_text(offers) + " quotes are",
            percent_text(std::min_element(season.jobs.begin(), season.jobs.end(),
                                          [](auto& a, auto& b) { return a.chance < b.chance; })
                             ->chance,
                         0));
    for (const std::string& left_out : names.without)
        text += " Left out: " + left_out + ".";
    for (const std::string& undated : names.undated)
        text += " Not dated, so not counted: \"" + undated + "\".";
    return text;
}

std::string double_words(const engine::Season& season, const engine::Double& pair) {
    std::string why;
    const auto add = [&](const std::string& what) { why += (why.empty() ? "" : ", ") + what; };
    if (pair.boundary)
        add("the same boundary");
    if (pair.acres)
        add("the same " + rounded_quantity(season.jobs[pair.first].acres, 2, "ac"));
    if (pair.dates)
        add("days in common");
    return fmt::format("\"{}\" and \"{}\": {}", season.jobs[pair.first].title,
                       season.jobs[pair.second].title, why);
}

std::vector<ClashGroup> clash_groups(const engine::Season& season) {
    std::vector<ClashGroup> groups;
    std::map<std::tuple<std::size_t, std::size_t, long, long, std::string>, std::size_t> at;
    for (const engine::Clash& clash : season.clashes.listed) {
        std::string wanted;
        if (clash.owned > 1 || clash.second == engine::Clash::none || clash.wanted > 2)
            wanted = fmt::format("{} wanted, {} owned", clash.wanted, clash.owned);
        const auto [group, added] = at.try_emplace(
            {clash.first, clash.second, clash.from, clash.to, wanted}, groups.size());
        if (added)
            groups.push_back(
                {clash.first, clash.second, clash.from, clash.to, {}, wanted, clash.may_be});
        groups[group->second].machines.push_back(machine_words(season, clash.machine));
    }
    return groups;
}

std::string clash_words(const engine::Season& season, const ClashGroup& clash) {
    std::string machines;
    for (const std::string& machine : clash.machines)
        machines += (machines.empty() ? "" : ", ") + machine;
    std::string text = fmt::format("{}, {}: \"{}\"", days_words(clash.from, clash.to), machines,
                                   season.jobs[clash.first].title);
    if (clash.second != engine::Clash::none)
        text += fmt::format(" and \"{}\"", season.jobs[clash.second].title);
    if (!clash.wanted.empty())
        text += " (" + clash.wanted + ")";
    return text + (clash.may_be ? ", if the offer is taken" : "");
}

namespace {

// Jobs that the plan begins on days for which the season sets other figures.
void say_other_days(const engine::Season& season, std::vector<std::string>& out) {
    constexpr std::size_t most_jobs = 5;
    std::size_t found = 0;
    for (std::size_t i = 0; i < season.jobs.size(); ++i) {
        const engine::PlannedJob& job = season.plan->jobs[i];
        if (!job.fits)
            continue;
        const auto otherwise = engine::priced_otherwise(season.jobs[i], job.at.start);
        if (otherwise.empty() || ++found > most_jobs)
            continue;
        out.push_back(
            fmt::format("\"{}\" would start on {}, when the season sets {} otherwise: give "
                        "it that date to see its price.",
                        season.jobs[i].title, lang::day_text(job.at.start),
                        fmt::format("{}", fmt::join(otherwise, ", "))));
    }
    if (found > most_jobs)
        out.push_back(fmt::format("So it is with {} more.", count_text(found - most_jobs)));
}

} // namespace

std::vector<std::string> plan_sentences(const engine::Season& season) {
    if (!season.plan)
        return {fmt::format("There is no plan: one takes at most {} jobs within ten years, and a "
                            "fleet that comes near to them.",
                            lang::number_text(engine::max_planned_jobs))};
    const engine::SeasonPlan& plan = *season.plan;
    std::vector<std::string> out;
    if (plan.moved == 0 && plan.left_out == 0)
        return {"All jobs fit as they are dated."};
    const std::string later =
        plan.moved == 0
            ? "no job starts later than dated"
            : fmt::format("{} later than dated, {} in all",
                          job_count(plan.moved) + (plan.moved == 1 ? " starts" : " start"),
                          day_count(plan.days_moved));
    out.push_back(fmt::format(
        "Each job as early as its date and the machines allow: {}{}", later,
        plan.left_out == 0
            ? "; all are done in time."
            : fmt::format("; {} not fit and would leave {}.",
                          job_count(plan.left_out) + (plan.left_out == 1 ? " does" : " do"),
                          whole_dollars(plan.lost))));
    out.push_back(fmt::format("A job that says no latest day is done by {}: --until sets it.",
                              lang::day_text(plan.last_day)));
    if (plan.all_by)
        out.push_back(fmt::format("With the days until {}, all that say no latest day fit.",
                                  lang::day_text(*plan.all_by)));
    if (plan.by_roads)
        out.push_back(fmt::format(
            "Jobs were put behind one another where a road saves a move, for {} more in all; each "
            "road was tried while that saved, not every order.",
            day_count(plan.days_for_moves)));
    else
        out.push_back(plan.proved
                          ? "No other order of the jobs, each as early as it goes, loses less."
                          : fmt::format("The search stopped at its limit, {} places tried: another "
                                        "order of the jobs may lose less.",
                                        lang::number_text(static_cast<double>(plan.trials))));
    say_other_days(season, out);
    return out;
}

std::vector<std::string> chain_sentences(const engine::Season& season,
                                         const engine::MoveChain& chain) {
    std::vector<std::string> out;
    for (const engine::ChainedJob& job : chain.jobs)
        if (job.before != engine::ChainedJob::none)
            out.push_back(fmt::format("From \"{}\" on to \"{}\".", season.jobs[job.job].title,
                                      season.jobs[job.before].title));
    if (out.empty())
        out.emplace_back("No two jobs of the plan follow each other over one of these roads.");
    else
        out.push_back(fmt::format("Moving on saves {} of direct cost; the jobs would be charged {} "
                                  "less.",
                                  whole_dollars(chain.cost_saved),
                                  whole_dollars(chain.charged_less)));
    for (const std::string& why : chain.why_not)
        out.push_back("Not taken: " + why + ".");
    return out;
}

std::vector<std::string> another_sentences(const engine::Season& season) {
    const engine::OneMore& more = *season.another;
    if (!more.answered)
        return {"There is no plan with one more of it."};
    std::vector<std::string> out;
    out.push_back(more.fit_now.empty()
                      ? "No job fits with it that does not fit without it."
                      : fmt::format("{} with it that {} not fit without it: {}",
                                    job_count(more.fit_now.size()) +
                                        (more.fit_now.size() == 1 ? " fits" : " fit"),
                                    more.fit_now.size() == 1 ? "does" : "do",
                                    titles(season, more.fit_now)));
    if (!more.never.empty())
        out.push_back(fmt::format("{} fit even then: {}",
                                  job_count(more.never.size()) +
                                      (more.never.size() == 1 ? " does not" : " do not"),
                                  titles(season, more.never)));
    if (!more.proved)
        out.emplace_back("The search for a plan stopped at its limit: the figures may be better.");
    return out;
}

std::vector<std::string> cover_sentences(const engine::Season& season) {
    const engine::Cover& cover = season.cover;
    std::vector<std::string> out;
    out.push_back(
        cover.over() >= 0
            ? fmt::format("The year is covered, with {} over.", whole_dollars(cover.over()))
            : fmt::format("The year is not covered: {} short.", whole_dollars(-cover.over())));
    if (season.machines.empty())
        out.emplace_back("No machine is in this: no model of these jobs says what a year of one "
                         "costs.");
    if (cover.carried)
        out.emplace_back("The office is counted as what these jobs carry for it: say what it costs "
                         "in a year with --overhead.");
    return out;
}

std::string hired_words(const engine::Season& season) {
    if (season.hired.empty())
        return {};
    std::string names;
    for (const engine::SeasonMachine& machine : season.hired)
        names += (names.empty() ? "" : ", ") + machine_words(machine);
    return "Hired: " + names +
           ". What it costs is in its jobs' costs; it is in no year of the firm, no clash and no "
           "plan.";
}

} // namespace acre::cli
