// What each block of a job has of its price.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/questions/estimate.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct BlockFigure { // of a block, or of all together
    double value = 0;
    std::string unit, text; // text: the value as people read it; empty: the model has no such line
};

struct BlockPrice {
    std::string name, label;
    // The block's lines area, depth, acres_per_hour and block_hours; soil: its line soil, or the
    // ground of its layer top. Days: its share of the line `days`, by hours.
    BlockFigure acres, depth, soil, pace, hours, days;
    double cost = 0; // of the prices that the blocks share
    std::int64_t cents = 0;
    double per_acre = 0; // money; 0 without acres
};

struct BlockName {
    std::string name, label; // label: its name where it has none
};

// The entries of a job that are ground: those with a line `area` of their own, in its order.
std::vector<BlockName> blocks_of(const lang::Sheet& sheet);

struct BlockPrices {
    std::vector<BlockPrice> blocks; // as the job lists them; none in a job without
    struct Shared {                 // a price that rests on no block, as a move
        std::string title;
        double cost = 0;
        std::int64_t cents = 0;
    };
    std::vector<Shared> shared;
    // A price by the acre that the blocks share: work is billed at this rate in every block, though
    // an acre of one costs more than of another.
    struct OneRate {
        std::string title, per;
        double rate = 0;
    };
    std::vector<OneRate> one_rate; // none where an acre comes to the same in every block
    double cost = 0;               // blocks and shared add up to it
    std::int64_t cents = 0;        // and to this
};

// A price is shared out by what its cost has from each block: the slope of the cost by every value
// that a block gives to the rest of the model, times that value (Euler's theorem: for costs that go
// up with hours, gallons and acres alike these add up to the cost). What is left, as whole days,
// goes by the same shares. Cents go where the largest parts of a cent are, so that they add up.
BlockPrices block_prices(const PricedJob& job, const Estimate& estimate);

} // namespace acre::engine
