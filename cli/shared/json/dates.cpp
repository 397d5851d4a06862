#include "cli/shared/json/dates.h"

namespace acre::cli {

Json dates_json(const engine::DatesAnswer& dates) {
    Json json = {{"earliest", dates.earliest},
                 {"start", dates.start},
                 {"finish", dates.finish},
                 {"latest", dates.latest.empty() ? Json(nullptr) : Json(dates.latest)},
                 {"late", dates.late},
                 {"work_days", number(dates.work_days)},
                 {"calendar_days", dates.calendar_days},
                 {"closed_days", dates.closed_days},
                 {"stages", Json::array()}};
    for (const engine::StageRow& stage : dates.stages) {
        Json row = {{"label", stage.label}, {"waits", stage.waits}, {"days", number(stage.days)},
                    {"first", stage.first}, {"last", stage.last},   {"begin_by", nullptr}};
        if (stage.begin_by)
            row["begin_by"] = {{"what", stage.begin_by_label},
                               {"hours", number(*stage.begin_by)},
                               {"text", stage.begin_by_text},
                               {"else_on", stage.else_on}};
        json["stages"].push_back(std::move(row));
    }
    return json;
}

} // namespace acre::cli
