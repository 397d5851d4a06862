// The price of one job, ready to be shown: what `price` prints and `quote` keeps. Numbers and names
// only.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/job/priced_job.h"
#include "engine/plan/compile_plan.h"
#include "engine/questions/earnings.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct CostRow {
    std::string name, label, part, rate_unit, quantity_unit;
    double rate = 0, quantity = 0, amount = 0, per_unit = 0, share = 0; // share of all costs, 0..1
};
struct StepRow {
    std::string text;  // as written: "margin 15 %"
    double added = 0;  // money this step added
    double sum = 0;    // money after it
    std::string shown; // the same with its value: "margin 15 %" for `margin prices.margin`
};
struct ItemRow {
    std::string title, name, per; // per: unit text, empty for a lump
    double quantity = 0, rate = 0,
           cost = 0;        // quantity and rate as charged (engine/words/billing.h)
    std::int64_t cents = 0; // the amount: their product, rounded once
    std::vector<StepRow> steps;
};
struct QuantityRow { // what carries the price: quantities of costs and items, and what they rest on
    std::string name, label, unit;
    double value = 0;
    std::string choice; // instead of a value
    bool own = false;   // of the job itself or of one of its entries, not of a used model
};
struct CautionRow {
    std::string text;
    bool tested_range = false; // from a function used outside its tested range
};
struct Estimate {
    std::vector<CostRow> costs;
    std::vector<ItemRow> items;
    std::vector<QuantityRow> quantities;
    std::vector<CautionRow> cautions;
    double cost_total = 0;
    Earnings earnings;
    std::string target_margin;    // as shown, "12 %"; empty: none, or not the same in all prices
    std::int64_t price_cents = 0; // the sum of the items' cents
    std::string per;              // unit of the all-in price: "ac"
    double per_quantity = 0, price_per_unit = 0; // what is charged, over the quantity
    double line_per_unit = 0; // the line `price.per_unit`, of quantities as they are
};

// Without a value a fault stops the price. Warnings are those of the job too. Reports I609 when the
// model has no price.
lang::Outcome<Estimate> estimate(const PricedJob& job);

// The same of a model that may have no price: costs, quantities and cautions.
lang::Outcome<Estimate> estimate_without_price(const PricedJob& job);

// What `price` shows of the line of a price, in all or by the unit, where it is another figure to
// the cent: there quantities are rounded as they are charged, in the line they are exact.
std::optional<double> charged_otherwise(const PricedJob& job, lang::LineId line);

} // namespace acre::engine
