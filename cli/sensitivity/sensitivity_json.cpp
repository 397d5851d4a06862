#include <cmath>

#include "cli/sensitivity/sensitivity_page.h"
#include "cli/shared/json/value.h"

#include "cli/shared/words.h"
#include "engine/words/words.h"
#include <cstdint>
#include <unordered_map>

namespace acre::cli {
namespace {

using engine::Effect;

Json line_json(const lang::Sheet& sheet, const engine::Sensitivity& of) {
    return {{"name", sheet.lines[of.line].name},
            {"label", sheet.lines[of.line].label},
            {"value", number(of.value)},
            {"unit", of.unit},
            {"text", engine::value_text(sheet, of.line, of.value)}};
}

Json swing_json(const Effect& effect, double base) {
    if (!effect.axis.swing)
        return nullptr;
    return {{"low", number(effect.axis.swing->low)},
            {"high", number(effect.axis.swing->high)},
            {"at_low", number(effect.at_low.value_or(NAN))},
            {"at_high", number(effect.at_high.value_or(NAN))},
            {"width", effect.swing_trouble.empty() ? number(effect.width(base)) : Json(nullptr)},
            {"trouble", effect.swing_trouble}};
}

Json options_json(const lang::Sheet& sheet, const Effect& effect) {
    Json options = Json::array();
    for (std::size_t i = 0; i < effect.at_option.size(); ++i)
        options.push_back(
            {{"name", engine::value_text(sheet, effect.axis.line, static_cast<double>(i))},
             {"at", number(effect.at_option[i])}});
    return options;
}

Json nearby_json(const lang::Sheet& sheet, const Effect& effect) {
    Json list = Json::array();
    for (const engine::Nearby& near : effect.nearby)
        list.push_back({{"kind", near.step ? "step" : "kink"},
                        {"at", number(near.at)},
                        {"distance", number(near.distance)},
                        {"before", number(near.before)},
                        {"after", number(near.after)},
                        {"line", near.line == lang::none ? Json(nullptr)
                                                         : Json(sheet.lines[near.line].name)}});
    return list;
}

} // namespace

std::string sensitivity_json(const SensitivityPage& page) {
    const lang::Sheet& sheet = page.sheet();
    Json out = {{"schema", "acrewright.sensitivity/1"}, {"title", title_of(sheet)}};
    out["line"] = line_json(sheet, page.of);
    out["slopes_of"] = line_json(sheet, page.slopes());
    out["givens"] = Json::array();
    std::unordered_map<std::uint32_t, const Effect*> slope_by_input;
    for (const Effect& effect : page.slopes().effects)
        slope_by_input[effect.axis.input] = &effect;
    for (const Effect& effect : page.of.effects) {
        const auto there = slope_by_input.find(effect.axis.input);
        const Effect* slope = there == slope_by_input.end() ? &effect : there->second;
        const lang::Line& line = sheet.lines[effect.axis.line];
        Json given = {{"name", line.name}, {"label", line.label}};
        given["value"] = effect.axis.options > 0
                             ? Json(engine::value_text(sheet, effect.axis.line, effect.axis.value))
                             : number(effect.axis.value);
        given["unit"] = engine::unit_text(sheet, line);
        given["reached"] = effect.reached;
        given["slope"] = effect.axis.options > 0 ? Json(nullptr) : number(slope->slope);
        given["slope_unit"] = effect.axis.options > 0 ? "" : slope->slope_unit;
        given["elasticity"] = effect.axis.options > 0 ? Json(nullptr) : number(slope->elasticity);
        given["swing"] = swing_json(effect, page.of.value);
        given["options"] = options_json(sheet, effect);
        given["nearby"] = nearby_json(sheet, *slope);
        out["givens"].push_back(std::move(given));
    }
    out["looked_near"] = page.slopes().looked_near;
    out["interactions"] = Json::array();
    for (const engine::Interaction& pair : page.of.interactions) {
        const auto end = [&](std::size_t i, bool high) -> Json {
            const Effect& effect = page.of.effects[i];
            return {{"name", sheet.lines[effect.axis.line].name},
                    {"end", high ? "high" : "low"},
                    {"at", number(high ? effect.axis.swing->high : effect.axis.swing->low)}};
        };
        out["interactions"].push_back({{"first", end(pair.first, pair.first_high)},
                                       {"second", end(pair.second, pair.second_high)},
                                       {"amount", number(pair.amount)}});
    }
    out["looked_together"] = page.of.looked_together;
    out["computed"] = Json::array();
    for (const lang::LineId id : page.of.computed)
        out["computed"].push_back(sheet.lines[id].name);
    return document(out);
}

} // namespace acre::cli
