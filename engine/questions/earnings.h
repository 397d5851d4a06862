// What a price leaves, in the words for money: price less direct cost is the contribution, less the
// overhead that the job carries the profit.
#pragma once

#include "engine/plan/plan.h"
#include "engine/readers/value.h"
#include "lang/check/sheet.h"

namespace acre::engine {

// In $. The profit is target_margin + markup + minimum + rounding + reserve - uncovered.
struct Earnings {
    double price = 0; // as quoted, to the cent
    double direct_cost = 0;
    double overhead = 0; // what the price carries for the office
    double reserve = 0;  // what it sets aside for what may go wrong: the steps for it
    double target_margin = 0, markup = 0, minimum = 0; // what these steps add
    double rounding = 0;                               // by steps and to the cent
    double uncovered = 0; // direct cost in no price, less what stands in two

    double contribution() const { return price - direct_cost; }
    double profit() const { return contribution() - overhead; }
    double after_reserve() const { return profit() - reserve; } // if all of it is spent
    // Over the price, 0 to 1; of a price of nothing there is none: 0.
    double share(double money) const { return price == 0 ? 0 : money / price; }
    double margin() const { return share(profit()); }
};

// By these values of the plan. `price`: as quoted, or another that is paid.
Earnings earnings(const lang::Sheet& sheet, const Plan& plan, const Values& values, double price);

// What the steps for overhead add, over all prices, $.
double overhead_of(const lang::Sheet& sheet, const Plan& plan, const Values& values);

} // namespace acre::engine
