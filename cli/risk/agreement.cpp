// Slope, swing and share of the spread answer three questions; this says whether they name the same
// given, and why not.
#include <cmath>

#include <fmt/format.h>

#include "cli/risk/risk_page.h"
#include "cli/shared/words.h"
#include "engine/words/words.h"

namespace acre::cli {
namespace {

using engine::Effect;

// How far the swing goes, as a share of the value; 0 where that has no meaning.
double reach(const Effect& effect) {
    if (!effect.axis.swing || effect.axis.value == 0)
        return 0;
    return effect.axis.swing->width() / std::abs(effect.axis.value);
}

const Effect* effect_of(const engine::Sensitivity& of, std::uint32_t input) {
    for (const Effect& effect : of.effects)
        if (effect.axis.input == input)
            return &effect;
    return nullptr;
}

std::string why_not_swing(const RiskPage& page, const Effect& top, const Effect& swing) {
    const std::string name = page.sensitivity->name_of(top);
    if (!top.axis.swing)
        return fmt::format("{} has no swing, so neither the swings nor the trials move it: give it "
                           "one if it is in doubt.",
                           name);
    if (!top.swing_trouble.empty())
        return fmt::format("The swing of {} cannot be used.", name);
    const Effect* at_ends = effect_of(page.sensitivity->of, top.axis.input);
    if (at_ends != nullptr && (!std::isfinite(at_ends->at_low.value_or(NAN)) ||
                               !std::isfinite(at_ends->at_high.value_or(NAN))))
        return fmt::format(
            "The job has no answer at {} of the swing of {}, so its swing is measured on one side "
            "at most.",
            std::isfinite(at_ends->at_low.value_or(NAN)) ? "the high end" : "the low end", name);
    return fmt::format("A slope asks what one per cent does, a swing what is plausible: {} swings "
                       "by {:.0f} % of itself, {} by {:.0f} %.",
                       page.sensitivity->name_of(swing), 100 * reach(swing), name,
                       100 * reach(top));
}

} // namespace

Agreement agreement(const RiskPage& page) {
    Agreement result;
    if (!page.sensitivity || !page.risk.shares || page.risk.shares->shares.empty())
        return result;
    const SensitivityPage& sensitivity = *page.sensitivity;
    const Effect* slope = nullptr;
    const Effect* swing = nullptr;
    if (const auto list = sloping(sensitivity);
        !list.empty() && std::isfinite(list.front()->elasticity))
        slope = list.front();
    for (const Effect* effect : swinging(sensitivity))
        if (effect->axis.options == 0 && swing == nullptr)
            swing = effect;
    const engine::Factor& share = page.risk.factors[page.risk.shares->shares.front().factor];
    result.by_share = page.name_of(share);
    if (slope != nullptr)
        result.by_slope = sensitivity.name_of(*slope);
    if (swing != nullptr)
        result.by_swing = sensitivity.name_of(*swing);
    const bool slope_is_swing =
        slope != nullptr && swing != nullptr && slope->axis.input == swing->axis.input;
    const bool swing_is_share =
        swing != nullptr && share.axis && share.axis->input == swing->axis.input;
    result.agree = slope_is_swing && swing_is_share;
    if (slope != nullptr && swing != nullptr && !slope_is_swing)
        result.why.push_back(why_not_swing(page, *slope, *swing));
    if (swing != nullptr && !swing_is_share)
        result.why.push_back(
            share.axis
                ? fmt::format(
                      "A swing is judged by its two ends alone; the spread counts how often a "
                      "value falls "
                      "near them and what it does together with the rest, which is more for {}.",
                      result.by_share)
                : fmt::format("{} is an event: it falls by chance and has neither slope nor swing.",
                              result.by_share));
    return result;
}

} // namespace acre::cli
