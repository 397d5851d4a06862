// The machines that the firm owns: what a year of them costs, who is on which, and what is left
// uncovered.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "engine/questions/season/season_job.h"

namespace acre::engine {

inline constexpr int max_units = 1'000; // of one machine

struct SeasonMachine {
    std::string name;          // of the used model: "crawler", "walt.rig"
    std::string label;         // what people call it; empty: by its name
    double fixed_per_year = 0; // what a year of one costs however far it runs, $/yr
    double hours_per_year = 0; // over which the jobs were priced
    bool disputed = false;     // jobs say different things of it: the dearest year counts
};

struct Owned {
    int count = 1;
    std::vector<std::string> names{}; // of the units; none: they are numbered
};

struct UnitRow {
    std::string name;           // "Hazel", "2"; empty: there is only one
    double booked = 0;          // h
    double share = 0;           // of the hours assumed
    double fixed_at_booked = 0; // $/h, if these were all its hours of the year; 0: not booked
    double not_covered = 0; // fixed cost of a year that its hours do not cover; below zero: more
    double idle = 0;        // what the hours it does not run leave uncovered, $; never below zero
    long days_held = 0;     // on jobs, closed days included
};

struct MachineRow {
    SeasonMachine machine;
    int owned = 1;
    int most_wanted = 0;    // at once, by the dates as given
    double booked = 0;      // h, of all units
    double share = 0;       // of the hours assumed for all units
    double fixed = 0;       // a year, all units, $
    double idle_hour = 0;   // fixed cost of an hour as priced, $/h
    double not_covered = 0; // of all units
    std::vector<UnitRow> units;
};

// The units of a machine that are on a job for a run of days: as many as it wants; more than there
// are repeat.
struct UnitStay {
    std::size_t use = 0; // into the uses of the job
    DaySpan days;
    std::vector<std::size_t> units;
};
using UnitsOfJobs = std::vector<std::vector<UnitStay>>; // by job

// In the order of the days: a job takes the first units that are free, else those that are free
// first. `places`: by job.
UnitsOfJobs assign_units(const std::vector<SeasonJob>& jobs, const std::vector<JobPlace>& places,
                         const std::map<std::string, Owned>& fleet);

// One row for each machine, most hours first.
std::vector<MachineRow> machine_rows(const std::vector<SeasonJob>& jobs,
                                     const std::vector<JobPlace>& places,
                                     const std::vector<SeasonMachine>& machines,
                                     const std::map<std::string, Owned>& fleet,
                                     const UnitsOfJobs& units);

Owned owned_of(const std::map<std::string, Owned>& fleet, const std::string& machine);

} // namespace acre::engine
