#include <cmath>

#include "cli/sensitivity/sensitivity_page.h"
#include "cli/shared/json/value.h"

namespace acre::cli {
namespace {

using engine::Effect;

Json line_json(const engine::Subject& line, double value) {
    return {{"name", line.name},
            {"label", line.label},
            {"value", number(value)},
            {"unit", line.unit},
            {"text", line.text(value)}};
}

Json swing_json(const Effect& effect, double base) {
    if (!effect.swing)
        return nullptr;
    return {{"kind", effect.chosen ? "choose" : "swing"},
            {"low", number(effect.swing->low)},
            {"high", number(effect.swing->high)},
            {"at_low", number(effect.at_low.value_or(NAN))},
            {"at_high", number(effect.at_high.value_or(NAN))},
            {"width", effect.swing_trouble.empty() ? number(effect.width(base)) : Json(nullptr)},
            {"trouble", effect.swing_trouble}};
}

Json options_json(const Effect& effect) {
    Json options = Json::array();
    for (std::size_t i = 0; i < effect.at_option.size(); ++i)
        options.push_back({{"name", effect.given.options[i]}, {"at", number(effect.at_option[i])}});
    return options;
}

Json nearby_json(const Effect& effect) {
    Json list = Json::array();
    for (const engine::Nearby& near : effect.nearby)
        list.push_back({{"kind", near.step ? "step" : "kink"},
                        {"at", number(near.at)},
                        {"distance", number(near.distance)},
                        {"before", number(near.before)},
                        {"after", number(near.after)},
                        {"line", near.line.empty() ? Json(nullptr) : Json(near.line)}});
    return list;
}

Json given_json(const Effect& effect, double base) {
    const bool choice = effect.given.is_choice();
    Json given = {{"name", effect.given.name}, {"label", effect.given.label}};
    given["value"] = choice ? Json(effect.given.option(effect.value)) : number(effect.value);
    given["unit"] = effect.given.unit;
    given["reached"] = effect.reached || effect.relaid;
    given["slope"] = choice ? Json(nullptr) : number(effect.slope);
    given["slope_unit"] = choice ? "" : effect.slope_unit;
    given["elasticity"] = choice ? Json(nullptr) : number(effect.elasticity);
    given["swing"] = swing_json(effect, base);
    given["options"] = options_json(effect);
    given["nearby"] = nearby_json(effect);
    return given;
}

} // namespace

Document sensitivity_json(const engine::SensitivityAnswer& answer) {
    Json out = {
        {"schema", "acrewright.sensitivity/1"}, {"money", money_json()}, {"title", answer.title}};
    out["line"] = line_json(answer.line, answer.value);
    out["charged"] = answer.charged ? number(*answer.charged) : Json(nullptr);
    out["slopes_of"] = line_json(answer.slopes_of, answer.slopes_value);
    out["givens"] = Json::array();
    for (const Effect& effect : answer.effects)
        out["givens"].push_back(given_json(effect, answer.value));
    out["looked_near"] = answer.looked_near;
    out["interactions"] = Json::array();
    for (const engine::Interaction& pair : answer.interactions) {
        const auto end = [&](std::size_t i, bool high) -> Json {
            const Effect& effect = answer.effects[i];
            return {{"name", effect.given.name},
                    {"end", high ? "high" : "low"},
                    {"at", number(high ? effect.swing->high : effect.swing->low)}};
        };
        out["interactions"].push_back({{"first", end(pair.first, pair.first_high)},
                                       {"second", end(pair.second, pair.second_high)},
                                       {"amount", number(pair.amount)}});
    }
    out["looked_together"] = answer.looked_together;
    out["computed"] = answer.computed;
    if (!answer.blocks.empty()) {
        out["blocks"] = Json::array();
        for (const engine::BlockSwings& block : answer.blocks)
            out["blocks"].push_back({{"name", block.name},
                                     {"label", block.label},
                                     {"givens", block.givens},
                                     {"widths", number(block.widths)},
                                     {"most", answer.effects[block.most].given.name}});
    }
    return answered(std::move(out));
}

} // namespace acre::cli
