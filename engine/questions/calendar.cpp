#include "engine/questions/calendar.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "engine/questions/dated_job.h"
#include "engine/questions/estimate.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

bool is_within(long day, const StageDates& stage) {
    return day >= stage.first && day <= stage.last;
}

// Days of nothing but waiting, but for the first and the last of them.
bool is_middle_of_a_wait(const Dated& from, long day) {
    return std::all_of(
               from.dates->stages.begin(), from.dates->stages.end(),
               [&](const StageDates& stage) {
                   return !is_within(day, stage) ||
                          (from.stages[stage.stage].waits && day > stage.first && day < stage.last);
               }) &&
           std::any_of(
               from.dates->stages.begin(), from.dates->stages.end(),
               [&](const StageDates& stage) { return is_within(day, stage); });
}

std::vector<DayRow> days_of(const Dated& from) {
    std::vector<DayRow> rows;
    for (long day = from.dates->start; day <= from.dates->finish; ++day) {
        if (is_middle_of_a_wait(from, day))
            continue;
        DayRow row{lang::date_text(day), lang::weekday_of(day), from.calendar.why_closed(day), {}};
        for (std::size_t i = 0; i < from.dates->stages.size(); ++i) {
            const StageDates& stage = from.dates->stages[i];
            const bool waits = from.stages[stage.stage].waits;
            if (is_within(day, stage) && (waits || row.closed.empty()))
                row.work.push_back(i);
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

// A season lists the holidays of its year; those of the next are not open days for that.
std::optional<long> unlisted_year(const std::vector<lang::ast::Closed>& closed, long finish) {
    const long year = lang::month_count(finish) / 12;
    long newest = 0;
    for (const lang::ast::Closed& one : closed)
        if (!one.weekday)
            newest = std::max<long>(newest, lang::month_count(day_of(one.last)) / 12);
    return newest > 0 && newest < year ? std::optional(year) : std::nullopt;
}

lang::Diagnostic undated(const PricedJob& job, const Dated& from) {
    if (!job.sheet().job.date)
        return lang::placeless(lang::Code::I603, "`" + job.request().name + "` has no `date`",
                               {"a calendar needs the day on which the job may start"},
                               {"give the job a line such as `date 2027-06-21`"});
    if (from.stages.empty())
        return lang::placeless(
            lang::Code::I603, "the model does not say how many days the job takes", {},
            {"give the model a line `days : day = ...`, or lines `stage_NAME : day = ...`"});
    return lang::placeless(
        lang::Code::Q006, "the days of this job cannot be counted",
        {fmt::format("a calendar has at most {} days of work, and days that are numbers",
                     lang::number_text(max_job_days))},
        {"look at the pace, the acres and the days lost of this job"});
}

} // namespace

lang::Outcome<CalendarAnswer> ask(const PricedJob& job, const CalendarQuestion& /*question*/) {
    lang::Outcome<Estimate> priced = estimate_without_price(job);
    lang::Outcome<CalendarAnswer> outcome(std::move(priced.said));
    if (!priced)
        return outcome;
    const Dated from = dated(job);
    if (!from.dates) {
        outcome.said.diagnostics.add(undated(job, from));
        return outcome;
    }
    outcome.value = CalendarAnswer{head_of(job), answer_of(from), days_of(from),
                                   unlisted_year(job.sheet().job.closed, from.dates->finish)};
    return outcome;
}

} // namespace acre::engine
