#include "cli/module/givens_json.h"

#include "cli/shared/json/value.h"
#include "engine/words/choice_label.h"

namespace acre::cli {
namespace {

Json range_json(const std::optional<engine::Range>& range, const engine::Subject& given) {
    if (!range)
        return nullptr;
    return {{"low", number(range->low)},
            {"high", number(range->high)},
            {"low_text", given.text(range->low)},
            {"high_text", given.text(range->high)}};
}

Json row_json(const engine::GivenRow& row) {
    Json json;
    json["name"] = row.given.name;
    json["label"] = row.given.label;
    json["part"] = row.part;
    json["unit"] = row.given.unit;
    json["value"] = row.given.is_choice() ? Json(row.given.option(row.value)) : number(row.value);
    json["text"] = row.text;
    json["options"] = Json::array();
    for (const std::string& option : row.given.options)
        json["options"].push_back({{"name", option}, {"label", engine::choice_label(option)}});
    json["written"] = row.written;
    json["set_by"] = row.set_by;
    json["place"] = row.place;
    json["because"] = row.because;
    json["within"] = row.given.is_choice() ? Json(nullptr) : range_json(row.within, row.given);
    json["swing"] = row.given.is_choice() ? Json(nullptr) : range_json(row.swing, row.given);
    json["chosen"] = row.chosen;
    return json;
}

} // namespace

Document givens_json(const engine::GivensAnswer& answer) {
    Json json = {{"schema", "acrewright.givens/1"}, {"givens", Json::array()}};
    for (const engine::GivenRow& row : answer.rows)
        json["givens"].push_back(row_json(row));
    return answered(std::move(json));
}

} // namespace acre::cli
