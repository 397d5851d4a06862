// What the finished jobs of a book say together about the figures that a season assumes. Each
// figure starts from what was assumed and moves as far as the logs are worth: with few jobs it
// stays near the season's value, and no single job is taken for the truth.
#pragma once

#include <span>
#include <string>
#include <utility>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/learning/agreement.h"
#include "engine/learning/ground_pace.h"
#include "engine/learning/measures.h"
#include "engine/log/job_log.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr double learned_level = 0.90; // of every interval

struct FinishedJob {
    std::string quote;
    JobReadings readings; // as the season prices it
    std::vector<Measure> measures;
};

// One finished job with all that its log measures. `job`: as the season, or its own texts, price
// it. Q004, as readings_of.
lang::Outcome<FinishedJob> finished_job(std::string quote, const PricedJob& job,
                                        const std::vector<CountedLine>& counted, const JobLog& log,
                                        Assumptions& assumptions, double& work);

struct LearnedFigure {
    std::string name, label, unit; // as the season names it
    double value = 0;              // as the season has it
    Range swing;
    double learned = 0, low = 0, high = 0; // its median, and the interval
    std::size_t jobs = 0;                  // whose logs tell of it
    Tells tells = Tells::Pace;
    std::string told_by;  // "acres per machine hour"
    bool at_end = false;  // of its swing: the swing may be too narrow, or something else is wrong
    bool settled = false; // the logs say something: the figure moved, or is surer than before
};

// How one kind of reading compares with what the season says, over all jobs: before anything is
// learned.
struct ComparedReading {
    Tells tells = Tells::Pace;
    std::string name, label, unit;
    std::size_t jobs = 0;
    double said = 0, measured = 0; // over all jobs together; of Days in percent, of
                                   // Breaks by 1,000 hours
};

struct LearnAnswer {
    std::vector<std::string> quotes;  // that were learned from
    std::vector<std::string> several; // quotes of several services: no pace, no burn
    // Quotes of work that the season, within its swings, mostly refuses: what their logs measured
    // of it tells nothing.
    std::vector<std::string> refused;
    std::vector<ComparedReading> compared;
    std::vector<LearnedFigure> figures;
    std::vector<GroundPace> grounds; // pace by ground and depth
    double ground_spread = 0;        // between jobs on the same ground, of the logarithm
    std::vector<std::string> untold; // figures with a swing of which no log tells
};

LearnAnswer learn(std::span<const FinishedJob> jobs, const Assumptions& assumptions);

// How a figure was estimated, with the publication.
std::string method_of(Tells tells);

} // namespace acre::engine
