#include "engine/questions/season/season_job.h"

#include <algorithm>
#include <cmath>

#include "engine/job/job_dates.h"

namespace acre::engine {
namespace {

const WorkCalendar& calendar_of(const SeasonJob& job) {
    static const WorkCalendar every_day({});
    return job.calendar ? *job.calendar : every_day;
}

void add_day(std::vector<DaySpan>& spans, long day) {
    if (!spans.empty() && spans.back().last + 1 >= day)
        spans.back().last = std::max(spans.back().last, day);
    else
        spans.push_back({day, day});
}

// Nobody works on the days between the two.
bool is_next(const WorkCalendar& calendar, long day, long after) {
    return calendar.next_open(day + 1) >= after;
}

// Where the stages stand; one of no days is nowhere.
struct StagesPlaced {
    std::vector<std::optional<DaySpan>> at;
    JobPlace job;
};

StagesPlaced place_stages(const SeasonJob& job, const std::vector<WorkStage>& stages,
                          long earliest) {
    const WorkCalendar& calendar = calendar_of(job);
    std::vector<Stage> named(stages.size());
    std::vector<double> days(stages.size());
    for (std::size_t i = 0; i < stages.size(); ++i) {
        named[i].waits = stages[i].waits;
        named[i].days = static_cast<Slot>(i);
        days[i] = stages[i].days;
    }
    StagesPlaced placed{std::vector<std::optional<DaySpan>>(stages.size()), {}};
    const auto dates = job_dates(earliest, {}, calendar, named, days);
    placed.job.start = dates ? dates->start : calendar.next_open(earliest);
    placed.job.finish = dates ? dates->finish : placed.job.start;
    if (dates)
        for (const StageDates& stage : dates->stages)
            placed.at[stage.stage] = DaySpan{stage.first, stage.last};
    return placed;
}

// The open days of these stages, and the days from the first to the last of each run of them.
void take_stages(const StagesPlaced& from, const std::vector<WorkStage>& stages,
                 const std::vector<std::size_t>& which, const WorkCalendar& calendar,
                 std::vector<DaySpan>& held, std::vector<DaySpan>& runs) {
    for (const std::size_t i : which) {
        if (i >= stages.size() || !from.at[i])
            continue;
        const DaySpan span = *from.at[i];
        if (!held.empty() && is_next(calendar, held.back().last, span.first))
            held.back().last = std::max(held.back().last, span.last);
        else
            held.push_back(span);
        if (!stages[i].waits)
            for (long day = calendar.next_open(span.first); day <= span.last;
                 day = calendar.next_open(day + 1))
                add_day(runs, day);
    }
}

} // namespace

std::vector<std::string> priced_otherwise(const SeasonJob& job, long start) {
    std::vector<std::string> givens;
    for (const lang::DatedSet& set : job.dated_sets ? *job.dated_sets : DatedSets{})
        if (set.holds_on(start) != set.in_force &&
            std::find(givens.begin(), givens.end(), set.given) == givens.end())
            givens.push_back(set.given);
    return givens;
}

JobPlace place(const SeasonJob& job, long earliest) {
    const WorkCalendar& calendar = calendar_of(job);
    std::vector<WorkStage> stages = job.stages;
    if (stages.empty())
        stages.push_back({std::isfinite(job.days) ? std::ceil(job.days) : 0, false});
    StagesPlaced placed = place_stages(job, stages, earliest);
    JobPlace& result = placed.job;
    std::vector<std::size_t> all(stages.size());
    for (std::size_t i = 0; i < all.size(); ++i)
        all[i] = i;
    std::vector<DaySpan> whole;
    take_stages(placed, stages, all, calendar, whole, result.work);
    if (result.work.empty()) // nothing is done: it counts on the day it starts
        result.work.push_back({result.start, result.start});
    for (const MachineUse& use : job.uses) {
        std::vector<DaySpan>& held = result.held.emplace_back();
        std::vector<DaySpan>& runs = result.runs.emplace_back();
        take_stages(placed, stages, use.stages, calendar, held, runs);
        const bool stays = held.empty();
        if (stays)
            held = {{result.start, result.finish}};
        if (runs.empty()) // it only stands there
            runs = stays ? result.work : held;
    }
    return std::move(placed.job);
}

long SeasonJob::work_days() const {
    return std::max(1L, days_in(dated.work));
}

long days_in(const std::vector<DaySpan>& spans) {
    long days = 0;
    for (const DaySpan& span : spans)
        days += span.days();
    return days;
}

} // namespace acre::engine
