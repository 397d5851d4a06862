#include "cli/try/try_json.h"

#include "cli/shared/json/value.h"

namespace acre::cli {

Document try_json(const engine::TryAnswer& answer) {
    Json json;
    json["schema"] = "acrewright.try/1";
    json["written"] = answer.written;
    json["with_numbers"] = answer.with_numbers;
    json["value"] = number(answer.value);
    json["unit"] = answer.unit;
    json["text"] = answer.text;
    return answered(std::move(json));
}

} // namespace acre::cli
