// What a job costs and what to charge for it: the answer of `price`, complete enough to be shown
// without a look at the job.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/block_prices.h"
#include "engine/questions/dates.h"
#include "engine/questions/estimate.h"
#include "engine/questions/hourly_costs.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct PriceQuestion {
    bool every_line = false; // `lines` too: of every line of the job, not cheap
    bool by_block = false;   // `blocks` too
};

struct JobHead { // what a page says of a job before its figures; empty where the job is silent
    std::string title, who, date; // 2027-06-21
    std::string option;           // the one taken
    std::vector<std::string> options;
    std::string model, season;              // titles
    std::vector<std::string> season_unused; // names it sets that nothing in this job has
    std::string model_file, season_file;    // names of the texts in force
    std::vector<std::pair<std::string, std::string>> words; // for its pages: address, place
    std::vector<std::string> notes;                         // for the crew alone
};
JobHead head_of(const PricedJob& job);

struct LineEntry {
    std::string name, label, part, unit;
    double value = 0;   // NaN: no answer
    std::string choice; // the option taken, instead of a value
    bool is_choice = false;
    std::string text;                   // the value as people read it
    std::string set_by, place, because; // of a given: who set it, where, why; else empty
};

struct PriceAnswer {
    JobHead job;
    Estimate estimate;
    HourlyCosts by_hour;
    std::vector<std::string> conditions; // of `require`, that are met: as written, each once
    std::vector<LineEntry> lines;        // always of a model without a price
    bool has_price = true;
    BlockPrices blocks;               // if asked for; none of a job without blocks
    std::optional<DatesAnswer> dates; // of a job with a date and days
};

// Without a value a fault stops the price; what was said holds warnings about the job too. Of a
// model that has formulas and no price the answer is its lines; without either, I609.
lang::Outcome<PriceAnswer> ask(const PricedJob& job, const PriceQuestion& question);

} // namespace acre::engine
