// What a customer is charged for one item of a price: one way for the page, the record, risk and
// the season.
#pragma once

#include <cstdint>

#include "engine/plan/plan.h"
#include "engine/readers/value.h"
#include "engine/words/billing.h"
#include "lang/check/sheet.h"

namespace acre::engine {

// By a noun of the model: trees, loads.
bool is_counted(const lang::Unit& unit);

// By these values of the plan. A lump sum has no quantity and no rate: both are 0. `notation`: the
// version whose rules hold; under the first the quantity is not rounded.
Billed charged(const lang::Sheet& sheet, const Plan& plan, const Values& values,
               const lang::PriceItem& item, std::uint32_t notation);

} // namespace acre::engine
