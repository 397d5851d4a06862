#include "cli/explain/explain_json.h"

#include "cli/shared/json/value.h"

namespace acre::cli {

namespace {

Json step_json(const engine::ExplainStep& step) {
    Json json;
    json["name"] = step.name;
    json["label"] = step.label;
    json["value"] = step.choice.empty() ? number(step.value) : Json(step.choice);
    json["unit"] = step.unit;
    json["text"] = step.text;
    json["written"] = step.written;
    json["with_numbers"] = step.with_numbers;
    json["set_by"] = step.set_by;
    json["within"] = step.within;
    json["place"] = step.place;
    json["because"] = step.because;
    json["may_be_negative"] = step.may_be_negative;
    json["sources"] = step.sources;
    json["shown_above"] = step.seen;
    json["inputs"] = Json::array();
    for (const engine::ExplainStep& input : step.inputs)
        json["inputs"].push_back(step_json(input));
    return json;
}

} // namespace

Document explain_json(const engine::ExplainStep& step,
                      const std::optional<engine::ChangedFigure>& changed) {
    Json json;
    json["schema"] = "acrewright.explain/1";
    json["money"] = money_json();
    json["line"] = step_json(step);
    json["changed"] = nullptr;
    if (changed)
        json["changed"] = {{"before", number(changed->before)},
                           {"after", number(changed->after)},
                           {"before_text", changed->before_text},
                           {"after_text", changed->after_text}};
    return answered(std::move(json));
}

} // namespace acre::cli
