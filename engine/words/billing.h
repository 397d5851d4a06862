// What a customer is charged for a price by the unit: a quantity that can be written down, a rate,
// and their product to the cent.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace acre::engine {

struct Billed {
    double quantity = 0; // rounded
    double rate = 0;     // dollars per unit, in as few decimals as give the cents
    std::int64_t cents = 0;
};

// `amount`: dollars for the exact `quantity`. The quantity is rounded first, half up, to
// hundredths; what is `counted` (trees, loads) to whole ones from a hundred on, where a whole one
// less or more is no more than a half percent. One that would become zero stays as it is. Where the
// rate is one that somebody stated, of four decimals at most, the amount goes with the quantity;
// any other amount stands, and the rate is written so that it gives it. `step`: as in to_cents.
Billed bill(double amount, double quantity, bool counted, std::int64_t step = 1);

// All of its decimals, cents at least: "$821.00/ac", "$325.7016/ac".
std::string billed_rate_text(double rate, std::string_view per);

} // namespace acre::engine
