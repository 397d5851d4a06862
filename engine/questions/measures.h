// The units that every text may use, and one quantity in another unit.
#pragma once

#include <string>
#include <vector>

#include "lang/diag/outcome.h"
#include "lang/units/measures.h"

namespace acre::engine {

struct MeasuresQuestion {
    std::string word; // a unit, as anybody may spell it, or a kind; empty: all
};
struct MeasuresAnswer {
    std::vector<lang::Measure> units; // in the order of the catalog
};
// Those that are called so; else those whose kind, name or spelling holds the word. C003 (near
// units in its helps) where there is none.
lang::Outcome<MeasuresAnswer> ask(const MeasuresQuestion& question);

struct ConversionQuestion {
    std::string quantity; // "45 gal/h"
    std::string unit;     // "L/h"
};
struct ConversionAnswer {
    std::string from, text; // "45 gal/h", "170.3 L/h"
    double value = 0;       // in `unit`
    std::string unit;       // as it is written here
};
// C003: no quantity, no unit, or another kind.
lang::Outcome<ConversionAnswer> ask(const ConversionQuestion& question);

} // namespace acre::engine
