// The posted prices of fuel that the bookkeeper keeps, week by week, as CSV: week (its first day),
// product, price (money a gallon), source. "week mm/dd/yyyy" has days as Americans write them;
// cells stand between commas or semicolons.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "lang/diag/outcome.h"

namespace acre::engine {

struct PostedPrice {
    std::string week, product, source; // week: its first day
    long first = 0;                    // the same as a day
    double price = 0;                  // a gallon
};

struct PostedPrices {
    std::vector<PostedPrice> rows; // by product, then week
    std::set<std::string> products;

    // Of the week that has this day; null: there is no row.
    const PostedPrice* find(std::string_view product, long day) const;
};

inline constexpr std::size_t max_posted_rows = 100'000;

// J005, at its row and column: none of the file is taken then.
lang::Outcome<PostedPrices> read_posted(std::string name, std::string text);

} // namespace acre::engine
