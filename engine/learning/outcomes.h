// Was the risk honest? Where the cost of each finished job fell in the distribution that was sealed
// with its quote, and which figures fell outside of what their swings allowed. From sealed records
// alone: nothing can be tuned after the fact.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "engine/book/record.h"
#include "engine/learning/learn.h"
#include "engine/log/job_log.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

inline constexpr double outcome_level = 0.90; // of every interval here
// A log of less of the work than this share says nothing of the whole job.
inline constexpr double least_logged = 0.95;

struct CostOutcome {
    std::string quote, title;
    lang::Currency money;
    double cost = 0;        // $, as the log has it; what a log cannot know, as quoted
    double at_mark[5] = {}; // the sealed marks of 5, 25, 50, 75 and 95 %
    double share = 0;       // of the trials below it: between two sealed marks as a straight
                            // line has it, 0 below the first of them and 1 above the last
    bool below_all = false, above_all = false; // of the sealed marks
    std::string why_not;                       // it cannot be placed; empty: it can
};
struct MarkCount {
    double mark = 0;       // 0.05
    std::size_t below = 0; // jobs
    Range share;           // what the counts allow, exact
    bool fits = true;      // the mark lies in it
};
// Figures that a log measures, held against what the swings of the quote allowed.
struct SwingCount {
    std::string label, unit;
    std::size_t jobs = 0, below = 0, above = 0; // outside the 5 and 95 % marks
    Range outside;                              // share of jobs, exact; a tenth is expected
    bool too_narrow = false;                    // the interval is above a tenth
    std::vector<std::string> moved_by;          // the givens whose swings make it
};
struct OutcomesAnswer {
    std::vector<CostOutcome> jobs;
    std::size_t placed = 0;
    std::array<MarkCount, 5> marks;
    std::vector<SwingCount> swings;
};

// The cost of a finished job in its sealed distribution. `changed`: why what was done is not what
// the risk was worked out for (another option, a change order); empty: it is.
CostOutcome place_cost(const QuoteRecord& quote, const JobLog& log, const std::string& changed);

// `priced`: the finished jobs as their own sealed texts price them.
OutcomesAnswer outcomes(std::vector<CostOutcome> jobs, std::span<const FinishedJob> priced);

} // namespace acre::engine
