// When a job starts and when it is done, by its own working days and the days on which its season
// is closed. Dates are answers: no formula reads them.
//
// The model says what is done by lines in days, in the order in which they are written in the job's
// own model:
//   stage_NAME    working days; a part of a day leaves the rest of it to the next stage
//   wait_NAME     days that pass, open or closed, before the next stage
//   NAME_by       beside either, in clock: the latest time of the first day to begin
// and the label of each says what it is. Where there are none, the first line in days that the
// model counts is all of the job, else the line `days`.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/job/work_calendar.h"
#include "engine/plan/plan.h"
#include "lang/check/sheet.h"

namespace acre::engine {

inline constexpr double max_job_days = 3'660;     // of work and waiting, ten years
inline constexpr long max_calendar_days = 36'600; // from start to finish

struct Stage {
    std::string label;
    bool waits = false;
    lang::LineId line = lang::none;
    Slot days = no_slot;
    Slot by = no_slot; // clock
    std::string by_label;
};

// By the plan, once for all jobs that share it. Slots are of `plan.line_slot`.
std::vector<Stage> stages_of(const lang::Sheet& sheet, const Plan& plan);

struct StageDates {
    std::size_t stage = 0; // into the stages; those of no days are left out
    double days = 0;
    long first = 0, last = 0;
    std::optional<double> by; // clock time on the first day
};

struct JobDates {
    long earliest = 0; // as the job says
    long start = 0;    // the first open day from there on
    long finish = 0;
    std::optional<long> latest; // as the job says
    double work_days = 0;       // of all stages, without waiting
    std::vector<StageDates> stages;

    long calendar_days() const { return finish - start + 1; }
    bool is_late() const { return latest && finish > *latest; }
};

// Empty: no stages, no days that are a number, or past the limits; or it ends after the last year.
// `earliest`, `latest`: as the job says. `values`: by slot.
std::optional<JobDates> job_dates(long earliest, std::optional<long> latest,
                                  const WorkCalendar& calendar, std::span<const Stage> stages,
                                  std::span<const double> values);

// Days of work from `first` to `last`.
long open_days(const WorkCalendar& calendar, long first, long last);

} // namespace acre::engine
