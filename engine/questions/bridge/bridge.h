// From one price to another: the difference divided among the values and formulas that changed,
// adding up exactly.
//
// The division is Shapley's (engine/questions/bridge/shapley.h): it depends on no order, so nobody
// can argue that fuel should have been counted before depth. A changed model and a changed library
// are changes like any other; what rounding to cents adds is a row of its own.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/priced_job.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

// Combinations of what makes another plan: the model, the library, givens that are typed on one
// side and computed on the other; and what their sheets may come to.
inline constexpr std::size_t max_variants = 1'024;
inline constexpr std::size_t max_variant_nodes = 4'000'000;

enum class BridgeKind : std::uint8_t { Given, Together, Model, Library, Rounding };

struct BridgeRow {
    BridgeKind kind = BridgeKind::Given;
    std::vector<std::string>
        names;         // of the givens; more than one where they have no price without each other
    std::string label; // of the first
    std::string before, after; // values with units, as shown
    std::string because;       // of the new value
    double share = 0;          // in the unit of the line, full precision
    std::int64_t cents = 0;    // the same in cents, so that the column adds up
};

struct Bridge {
    std::string unit;                               // of the price: "$/ac", "$"
    double before = 0, after = 0;                   // unrounded
    std::int64_t before_cents = 0, after_cents = 0; // as quoted
    std::vector<BridgeRow> rows;                    // largest first; rounding last
    bool exact = true; // every order counted; false: a sample of orders
};

// `total`: the whole price instead of the price per unit. Q007 where a side has no price, or the
// two are in unlike units, or differ in too much.
lang::Outcome<Bridge> bridge(const PricedJob& before, const PricedJob& after, bool total);

} // namespace acre::engine
