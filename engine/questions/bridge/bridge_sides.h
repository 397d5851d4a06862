// The two sides of a bridge, each by itself.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "engine/job/priced_job.h"
#include "engine/questions/bridge/bridge.h"
#include "engine/questions/earnings.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

struct SidePrice {
    double price = 0;
    std::int64_t cents = 0;
    std::string unit;
    Earnings earnings;
    std::string per;
    double per_quantity = 0;
};

// Q007: the side has no price.
lang::Outcome<SidePrice> price_of(const PricedJob& job, bool total);

std::optional<BridgeKept> kept_price(const SidePrice& before, const SidePrice& after);

BridgeSide side_of(const PricedJob& job, const std::string& what, const std::string& label,
                   const SidePrice& price);

// Two sides of one name are told apart by where they come from.
void tell_apart(BridgeAnswer& bridge);

} // namespace acre::engine
