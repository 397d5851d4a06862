// From one price to another: the difference divided among the values and formulas that changed,
// adding up exactly.
//
// The division is Shapley's (engine/questions/bridge/shapley.h): it depends on no order, so nobody
// can argue that fuel should have been counted before depth. A changed model and a changed library
// are changes like any other; what rounding to cents adds is a row of its own.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/job/priced_job.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

// Combinations of what makes another plan: the model, the library, givens that are typed on one
// side and computed on the other; and what their sheets may come to.
inline constexpr std::size_t max_variants = 1'024;
inline constexpr std::size_t max_variant_nodes = 4'000'000;

enum class BridgeKind : std::uint8_t { Given, Together, Model, Library, Rounding };

struct BridgeChange {          // a given that is not the same on both sides
    std::string name, label;   // label: the name where the model gives none
    std::string before, after; // values with units; of a choice its identifier
    bool choice = false;

    const std::string& called() const { return label.empty() ? name : label; }
};

struct BridgeRow {
    BridgeKind kind = BridgeKind::Given;
    std::vector<BridgeChange> changes; // more than one where they have no price without each other
    std::string because;               // of the first one's new value
    double share = 0;                  // in the unit of the answer, full precision
    std::int64_t cents = 0;            // the same in cents, so that the column adds up
};

struct BridgeSide {
    std::string what, label; // as asked for; what people call it
    double value = 0;        // unrounded
    std::int64_t cents = 0;  // as quoted
};

// The old price with the direct cost of the new side: overhead stays as the old side was quoted.
struct BridgeKept {
    double price = 0, overhead = 0, direct_cost_before = 0, direct_cost_after = 0; // $
    double profit_before() const { return price - direct_cost_before - overhead; }
    double profit_after() const { return price - direct_cost_after - overhead; }
};

struct BridgeQuestion {
    std::string before, after;             // where the sides come from: a file, "quote 2027-003"
    std::string before_label, after_label; // empty: the job's title and option
    bool total = false;                    // the whole price instead of the price per unit
};

struct BridgeAnswer {
    std::string unit; // of the price: "$/ac", "$"
    BridgeSide before, after;
    std::vector<BridgeRow> rows;    // largest first; rounding last
    bool exact = true;              // every order counted; false: a sample of orders
    std::optional<BridgeKept> kept; // none: the sides are not for the same quantity
};

// Q007 where a side has no price, or the two are in unlike units, or differ in too much. What is
// said of one side says in a note which.
lang::Outcome<BridgeAnswer> ask(const PricedJob& before, const PricedJob& after,
                                const BridgeQuestion& question);

// What is said of the "old" or the "new" side, each diagnostic with a note that says which.
lang::Said of_side(lang::Said said, std::string_view side, std::string_view what);

} // namespace acre::engine
