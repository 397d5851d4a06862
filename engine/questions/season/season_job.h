// A job of the season: what it costs and brings, on which days it is worked, and on which days its
// machines are there. Days are counted from 1970-01-01.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/job/work_calendar.h"
#include "lang/check/sheet.h"

namespace acre::engine {

struct DaySpan {
    long first = 0, last = 0; // both counted

    long days() const { return last - first + 1; }
    bool operator==(const DaySpan&) const = default;
};

struct WorkStage {
    double days = 0;    // of work, or that pass
    bool waits = false; // nobody works, and the days pass
};

struct MachineUse {
    std::string machine;
    int units = 1;                     // of it on the job at once
    double hours = 0;                  // of all of them together
    std::vector<std::size_t> stages{}; // in which it is there; none: from the first day to the last
    double fixed = 0;                  // the fixed cost that these hours carry in the job's cost
};

// Where a job stands in the calendar when it may begin on a day.
struct JobPlace {
    long start = 0, finish = 0;               // the first and the last day of work or waiting
    std::vector<DaySpan> work{};              // days of work, closed ones left out
    std::vector<std::vector<DaySpan>> held{}; // by use: days on which its machines are there
    std::vector<std::vector<DaySpan>> runs{}; // by use: days of them on which it runs
};

using DatedSets = std::vector<lang::DatedSet>;

struct SeasonJob {
    std::string file, title, who, boundary; // boundary: file of the field; empty: none is named
    long earliest = 0;                      // as the job says
    std::optional<long> latest{};           // as the job says
    std::vector<WorkStage> stages{};        // none: as many days as `days` says
    std::shared_ptr<const WorkCalendar> calendar{}; // none: every day is open
    std::shared_ptr<const DatedSets> dated_sets{};  // what its season sets by the day
    double days = 0;                // of work, as the model counts them, where it has no stages
    double price = 0, cost = 0;     // money; cost: direct
    double overhead = 0;            // what the price carries
    double fixed = 0;               // of the direct cost: the fixed cost of machines
    double acres = 0, gallons = 0;  // 0: the job has none
    std::vector<MachineUse> uses{}; // each machine once
    double chance = 1;              // that it comes; below 1: a quote that is out
    JobPlace dated{};               // as its dates have it

    double contribution() const { return price - cost; }
    double profit() const { return price - cost - overhead; }
    // A day of work, moving in and out among them.
    double profit_a_day() const { return profit() / static_cast<double>(work_days()); }
    long work_days() const; // one at least
    // What it leaves for the fixed cost of machines and for the office.
    double left() const { return price - cost + fixed; }
};

// The givens that its season sets otherwise for a job that starts on this day than for this one.
std::vector<std::string> priced_otherwise(const SeasonJob& job, long start);

// From the first open day on or after `earliest`.
JobPlace place(const SeasonJob& job, long earliest);

// How many days all of these have.
long days_in(const std::vector<DaySpan>& spans);

} // namespace acre::engine
