#include "cli/check/plan_pages.h"
#include "cli/shared/json/value.h"

namespace acre::cli {

Document plan_json(const engine::PlanListing& listing) {
    Json json;
    json["schema"] = "acrewright.plan/1";
    json["steps"] = Json::array();
    for (const engine::PlanStep& step : listing.steps)
        json["steps"].push_back({{"operation", step.operation},
                                 {"operands", step.operands},
                                 {"of", step.of},
                                 {"value", number(step.value)},
                                 {"unit", step.unit},
                                 {"line", step.line},
                                 {"place", step.place}});
    return answered(std::move(json));
}

} // namespace acre::cli
