// What a log can be held against: figures of a job that its log measures too, worked out by the
// job's own plan, over everything that the season may have wrong.
#pragma once

#include <cstddef>
#include <cstdint>
#include <set>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/learning/assumptions.h"
#include "engine/log/counting.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

enum class Tells : std::uint8_t {
    Pace,      // work for each machine hour
    Burn,      // fuel for each machine hour
    FuelPrice, // what fuel cost, as delivered
    Hours,     // hours of a truck or a pilot car, of the move
    Money,     // money spent on a cost, for each machine hour
    Days,      // days of work among those that were open
    Breaks     // breakages, by machine hours
};

struct Reading {
    Tells tells = Tells::Pace;
    std::string name;        // the column of the log, the cost or the event
    std::string label, unit; // "acres per machine hour", "ac/h"
    double at_season = 0;    // as the season has it; of Days nothing
    // By draw: the same with what was drawn. NaN: no answer. Empty of Days, where the figure
    // assumed is itself what is measured.
    std::vector<double> drawn;
    // What differs from job to job (the ground, the share of a computed speed): by how much it
    // moves the logarithm on the whole, and its standard deviation.
    double shift = 0, scatter = 0;
    // Draws of everything that swings, sorted: how far this figure was thought to range.
    std::vector<double> range;
    std::vector<std::size_t> rests_on; // into the assumptions
    std::vector<std::string> moved_by; // names of all figures with a swing that it rests on
};

// The ground of the job: of the block with the most acres.
struct Ground {
    std::string layer; // the hardest that the tool reaches, "moderate_pan"; empty: not said
    double depth = 0;  // in the unit of the line
    std::string depth_unit;
};

struct JobReadings {
    std::vector<Reading> readings;
    Ground ground;
    // Machines of several services under one log: nobody can say whose hours they were.
    bool several = false;
    std::vector<std::string> machines; // that are counted, where they are of several kinds
};

// `job`: as the season prices it; `counted`: what its log counts; `spent`: the costs for which the
// log has money. Adds to the assumptions what is
// new. `work` counts steps of calculation. Q004: more of them than a question may take.
lang::Outcome<JobReadings> readings_of(const PricedJob& job,
                                       const std::vector<CountedLine>& counted,
                                       const std::set<std::string>& spent, Assumptions& assumptions,
                                       double& work);

Ground ground_of(const PricedJob& job);

} // namespace acre::engine
