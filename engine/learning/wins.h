// What wins: the quotes that were accepted and those that were turned down or ran out, by what they
// asked. A share of few is not known well, and is shown with how well.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "engine/book/record.h"
#include "engine/questions/what_if/range.h"

namespace acre::engine {

inline constexpr std::size_t least_in_a_band = 4; // fewer say nothing of it
inline constexpr std::size_t most_bands = 4;

struct DecidedQuote {
    std::string quote;
    bool won = false;
    double price = 0;    // for each unit of `per`
    std::string per;     // "ac"; empty: a lump sum
    double margin = 0;   // profit over price, 0 to 1
    double distance = 0; // one way, in `distance_unit`
    std::string distance_unit;
    double size = 0;  // so many of `per`
    std::string work; // the model, "Deep ripping by the acre"
};

// What a quote says of itself; of a figure that it lacks, NaN. `option`: the one that was taken,
// where it is not the quote's own; what it would have cost is in no record, so it has no margin.
DecidedQuote decided_quote(const QuoteRecord& quote, bool won, const std::string& option = {});

struct WinBand {
    double low = 0, high = 0; // of the quotes in it
    std::size_t quotes = 0, won = 0;
    Range share; // by Wilson's score
};
struct WinTable {
    std::string what;           // "price", "margin", "distance", "size"
    std::string unit;           // "$/ac", "%"
    std::string of;             // the work that it is of alone; empty: of all
    std::vector<WinBand> bands; // as many quotes in each as can be; empty: too few to say
    std::size_t without = 0;    // quotes that lack the figure, or have it in another unit
    // The share of the first band less that of the last, and whether that is more than chance.
    Range difference;
    bool says_something = false;
};
// Acres that are disced cost less than acres that are ripped, and that says nothing of what wins:
// price and size are of the work that most quotes are for.
struct WinsAnswer {
    std::size_t quotes = 0, won = 0;
    Range share;
    std::string work;             // that most quotes are for
    std::size_t quotes_of_it = 0; // of `quotes`
    std::vector<WinTable> tables;
};

WinsAnswer wins(const std::vector<DecidedQuote>& quotes);

} // namespace acre::engine
