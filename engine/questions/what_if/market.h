// At a price per unit that the market pays, all in: the values of a given at which a job covers its
// direct cost, its overhead too, and at which it leaves the full margin.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/subject.h"
#include "engine/questions/what_if/break_even.h"
#include "engine/questions/what_if/range.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct MarketQuestion {
    std::string given; // what moves: the acres
    double rate = 0;   // $ per unit of the first price with a `per`, the whole job included
    std::optional<Range> between; // as of break-even
    bool names = false;
};

enum class MarketAim : std::uint8_t { DirectCost, Overhead, FullMargin };

struct MarketThreshold {
    MarketAim aim = MarketAim::DirectCost;
    BreakEvenAnswer found;      // of what is needed less what is paid, $; `wanted` is 0
    std::vector<Range> covered; // of the given: where what is paid is enough
};

struct MarketAnswer {
    std::string title;
    Subject given;
    double value = 0; // of the given, as the job has it
    Range range;
    double rate = 0;
    std::string per;                         // "ac"
    std::vector<MarketThreshold> thresholds; // in the order of MarketAim
};

// Each value of the given is a job of its own, so overhead is worked out anew for it. Q001: the
// model has no price per unit; the rest as break-even.
lang::Outcome<MarketAnswer> ask(const PricedJob& job, const MarketQuestion& question);

// The unit of its rate: "$/ac"; Q001 as above.
lang::Outcome<std::string> market_unit(const PricedJob& job);

} // namespace acre::engine
