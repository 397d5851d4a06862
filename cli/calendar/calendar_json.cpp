#include "cli/calendar/calendar_page.h"
#include "cli/shared/json/dates.h"
#include "lang/units/calendar.h"

namespace acre::cli {

Document calendar_json(const engine::CalendarAnswer& answer) {
    Json json = {{"schema", "acrewright.calendar/1"},
                 {"title", answer.job.title},
                 {"for", answer.job.who},
                 {"option", answer.job.option},
                 {"season", answer.job.season},
                 {"dates", dates_json(answer.dates)},
                 {"days", Json::array()}};
    for (const engine::DayRow& day : answer.days) {
        Json row = {{"date", day.date},
                    {"weekday", lang::weekday_name(day.weekday)},
                    {"closed", day.closed.empty() ? Json(nullptr) : Json(day.closed)},
                    {"work", Json::array()}};
        for (const std::size_t stage : day.work)
            row["work"].push_back(answer.dates.stages[stage].label);
        json["days"].push_back(std::move(row));
    }
    json["unlisted_year"] = answer.unlisted_year ? Json(*answer.unlisted_year) : Json(nullptr);
    return answered(std::move(json));
}

} // namespace acre::cli
