#include "cli/measures/measures_page.h"
#include "cli/shared/json/value.h"

namespace acre::cli {

Document measures_json(const engine::MeasuresAnswer& answer) {
    Json json;
    json["schema"] = "acrewright.measures/1";
    json["units"] = Json::array();
    for (const lang::Measure& unit : answer.units)
        json["units"].push_back({{"name", unit.name},
                                 {"kind", unit.kind},
                                 {"is", unit.is},
                                 {"spellings", unit.spellings}});
    return answered(std::move(json));
}

Document conversion_json(const engine::ConversionAnswer& answer) {
    Json json;
    json["schema"] = "acrewright.conversion/1";
    json["from"] = answer.from;
    json["value"] = number(answer.value);
    json["unit"] = answer.unit;
    json["text"] = answer.text;
    return answered(std::move(json));
}

} // namespace acre::cli
