#include "cli/library/library_json.h"

#include "cli/shared/json/value.h"

namespace acre::cli {

Document library_json(const engine::LibraryAnswer& answer) {
    Json json;
    json["schema"] = "acrewright.library/1";
    json["formulas"] = Json::array();
    for (const engine::Formula& entry : answer.formulas) {
        Json formula;
        formula["name"] = entry.name;
        formula["library"] = entry.library;
        formula["label"] = entry.label;
        formula["signature"] = entry.signature;
        formula["unit"] = entry.unit;
        formula["native"] = entry.native;
        formula["written"] = entry.written;
        formula["sources"] = entry.sources;
        formula["known"] = entry.known;
        formula["tested"] = entry.tested;
        formula["limits"] = entry.limits;
        formula["notes"] = entry.notes;
        formula["examples"] = Json::array();
        for (const engine::WorkedExample& example : entry.examples) {
            formula["examples"].push_back({{"call", example.call},
                                           {"value", number(example.value)},
                                           {"text", example.text},
                                           {"expected", example.expected}});
        }
        json["formulas"].push_back(std::move(formula));
    }
    return answered(std::move(json));
}

} // namespace acre::cli
