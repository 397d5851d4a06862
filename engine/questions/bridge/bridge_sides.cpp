#include "engine/questions/bridge/bridge_sides.h"

#include <cmath>

#include "engine/questions/estimate.h"
#include "engine/words/money.h"

namespace acre::engine {
namespace {

// The title of the job and the option taken.
std::string label_of(const PricedJob& job) {
    const lang::JobInfo& info = job.sheet().job;
    const std::string& title = info.title.empty() ? info.model_title : info.title;
    return info.option.empty() ? title : title + ", " + info.option;
}

} // namespace

lang::Outcome<SidePrice> price_of(const PricedJob& job, bool total) {
    lang::Outcome<Estimate> priced = estimate(job);
    if (!priced)
        return std::move(priced.said);
    const lang::LineId line = total ? job.sheet().price_total : job.sheet().price_per_unit;
    SidePrice result;
    result.price = job.value(line);
    if (!std::isfinite(result.price))
        return lang::placeless(lang::Code::Q007,
                               total ? "this side has no price" : "this side has no price per unit",
                               {}, {"compare the whole prices (`--total`)"});
    const std::string& money = job.sheet().units.money();
    result.unit = total ? money : money + "/" + priced->per;
    result.earnings = priced->earnings;
    result.per = priced->per;
    result.per_quantity = priced->per_quantity;
    const double one = static_cast<double>(priced->price_cents) / 100 / priced->per_quantity;
    if (!total && !has_cents(one))
        return lang::placeless(lang::Code::Q007,
                               "the price per unit of this side is too large to be told in cents",
                               {}, {"compare the whole prices (`--total`)"});
    result.cents = total ? priced->price_cents : to_cents(one);
    return result;
}

std::optional<BridgeKept> kept_price(const SidePrice& before, const SidePrice& after) {
    if (before.per != after.per || before.per_quantity != after.per_quantity)
        return std::nullopt;
    return BridgeKept{before.earnings.price, before.earnings.overhead, before.earnings.direct_cost,
                      after.earnings.direct_cost};
}

BridgeSide side_of(const PricedJob& job, const std::string& what, const std::string& label,
                   const SidePrice& price) {
    return {what, label.empty() ? label_of(job) : label, price.price, price.cents};
}

void tell_apart(BridgeAnswer& bridge) {
    if (bridge.before.label != bridge.after.label)
        return;
    for (BridgeSide* side : {&bridge.before, &bridge.after})
        if (!side->what.empty() && side->what != side->label)
            side->label += " (" + side->what + ")";
}

} // namespace acre::engine
