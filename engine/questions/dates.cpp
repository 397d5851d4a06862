#include "engine/questions/dates.h"

#include <utility>

#include "engine/questions/dated_job.h"
#include "lang/units/calendar.h"
#include "lang/units/clock.h"

namespace acre::engine {
namespace {

StageRow stage_row(const Dated& from, const StageDates& of) {
    const Stage& stage = from.stages[of.stage];
    StageRow row;
    row.label = stage.label;
    row.waits = stage.waits;
    row.days = of.days;
    row.first = lang::date_text(of.first);
    row.last = lang::date_text(of.last);
    if (of.by) {
        row.begin_by = of.by;
        row.begin_by_text = lang::clock_text(*of.by);
        row.begin_by_label = stage.by_label.empty() ? "begin by" : stage.by_label;
        row.else_on = lang::date_text(from.calendar.next_open(of.first + 1));
    }
    return row;
}

} // namespace

Dated dated(const PricedJob& job) {
    const lang::JobInfo& info = job.sheet().job;
    Dated out{WorkCalendar(info.closed), stages_of(job.sheet(), job.plan()), {}};
    if (info.date)
        out.dates = job_dates(day_of(*info.date),
                              info.latest ? std::optional(day_of(*info.latest)) : std::nullopt,
                              out.calendar, out.stages, job.values().slot);
    return out;
}

DatesAnswer answer_of(const Dated& from) {
    const JobDates& dates = *from.dates;
    DatesAnswer answer;
    answer.earliest = lang::date_text(dates.earliest);
    answer.start = lang::date_text(dates.start);
    answer.finish = lang::date_text(dates.finish);
    if (dates.latest)
        answer.latest = lang::date_text(*dates.latest);
    answer.late = dates.is_late();
    answer.work_days = dates.work_days;
    answer.calendar_days = dates.calendar_days();
    answer.closed_days =
        dates.calendar_days() - open_days(from.calendar, dates.start, dates.finish);
    for (const StageDates& stage : dates.stages)
        answer.stages.push_back(stage_row(from, stage));
    return answer;
}

std::optional<DatesAnswer> dates_of(const PricedJob& job) {
    const Dated from = dated(job);
    return from.dates ? std::optional(answer_of(from)) : std::nullopt;
}

} // namespace acre::engine
