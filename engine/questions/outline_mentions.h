// Where the texts of a job say the names that its statements declare.
#pragma once

#include <cstdint>
#include <map>
#include <utility>
#include <vector>

#include "engine/job/priced_job.h"
#include "lang/source/span.h"

namespace acre::engine {

// A symbol by the file and the byte where its name is declared.
using SymbolPlaces = std::map<std::pair<lang::FileId, std::uint32_t>, std::uint32_t>;

struct Found {
    lang::Span span; // of the name alone: of `crawler.fuel.amount` the word `fuel`
    std::uint32_t symbol = 0;
};

// In formulas, in `set` and `with`, in calls and correlations, and where they are declared; in the
// order of the texts, each once.
std::vector<Found> mentions_of(const PricedJob& job, const SymbolPlaces& symbols);

} // namespace acre::engine
