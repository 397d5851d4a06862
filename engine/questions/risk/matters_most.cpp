#include "engine/questions/risk/matters_most.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace acre::engine {
namespace {

// How far the swing goes, as a share of the value; 0 where that has no meaning.
double reach(const Effect& effect) {
    if (!effect.swing || effect.value == 0)
        return 0;
    return effect.swing->width() / std::abs(effect.value);
}

std::string why_not_swing(const Effect& top, const Effect& swing) {
    const std::string& name = top.given.called;
    if (top.chosen)
        return fmt::format("{} is chosen before work starts, so the trials hold it still.", name);
    if (!top.swing)
        return fmt::format("{} has no swing, so neither the swings nor the trials move it: give it "
                           "one if it is in doubt.",
                           name);
    if (!top.swing_trouble.empty())
        return fmt::format("The swing of {} cannot be used.", name);
    const bool low = std::isfinite(top.at_low.value_or(NAN));
    const bool high = std::isfinite(top.at_high.value_or(NAN));
    if (!low || !high)
        return fmt::format("The job has no answer at {} of the swing of {}, so its swing is "
                           "measured on one side at most.",
                           low ? "the high end" : "the low end", name);
    return fmt::format("Slope is for a 1 % change, swing for the plausible range: {} swings by "
                       "{:.0f} % of itself, {} by {:.0f} %.",
                       swing.given.called, 100 * reach(swing), name, 100 * reach(top));
}

std::string why_not_share(const Factor& share) {
    const std::string& name = share.given.called;
    if (share.is_event())
        return fmt::format("{} is an event: it happens by chance and has neither slope nor swing.",
                           name);
    return fmt::format(
        "A swing is judged by its two ends alone; the spread counts how often a value "
        "falls near them and how it interacts with the rest, which is more for {}.",
        name);
}

} // namespace

MattersMost matters_most(const RiskAnswer& risk, const SensitivityAnswer& sensitivity) {
    MattersMost result;
    if (!risk.shares || risk.shares->shares.empty())
        return result;
    const Effect* slope = nullptr;
    const Effect* swing = nullptr;
    if (!sensitivity.by_slope.empty())
        slope = &sensitivity.effects[sensitivity.by_slope.front()];
    if (slope != nullptr && !std::isfinite(slope->elasticity))
        slope = nullptr;
    for (const std::size_t i : sensitivity.by_swing)
        if (!sensitivity.effects[i].given.is_choice() && !sensitivity.effects[i].chosen &&
            swing == nullptr)
            swing = &sensitivity.effects[i];
    const Factor& share = risk.factors[risk.shares->shares.front().factor];
    result.by_share = share.given.called;
    if (slope != nullptr)
        result.by_slope = slope->given.called;
    if (swing != nullptr)
        result.by_swing = swing->given.called;
    const bool slope_is_swing = slope != nullptr && slope == swing;
    const bool swing_is_share =
        swing != nullptr && !share.is_event() && share.given.name == swing->given.name;
    result.agree = slope_is_swing && swing_is_share;
    if (slope != nullptr && swing != nullptr && !slope_is_swing)
        result.why.push_back(why_not_swing(*slope, *swing));
    if (swing != nullptr && !swing_is_share)
        result.why.push_back(why_not_share(share));
    return result;
}

} // namespace acre::engine
