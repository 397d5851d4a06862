#include "cli/crew/crew.h"
#include "cli/shared/json/dates.h"

namespace acre::cli {
namespace {

Json rows_json(const Grid& grid) {
    Json rows = Json::array();
    for (const std::vector<std::string>& row : grid.rows)
        rows.push_back(row);
    return rows;
}

} // namespace

Document crew_json(const CrewPage& page) {
    Json words = Json::array();
    for (const auto& [name, text] : page.job.words)
        words.push_back({{"name", name}, {"text", text}});
    return answered({{"schema", "acrewright.crew/1"},
                     {"quote", page.number},
                     {"work", page.quote.number},
                     {"accepted", page.accepted},
                     {"title", page.job.title},
                     {"for", page.job.who},
                     {"option", page.job.option},
                     {"words", std::move(words)},
                     {"notes", page.job.notes},
                     {"figures", rows_json(page.parts.figures)},
                     {"headings", page.headings},
                     {"kept_off", page.kept_off},
                     {"blocks", rows_json(page.parts.blocks)},
                     {"dates", page.calendar ? dates_json(page.calendar->dates) : Json(nullptr)},
                     {"cautions", page.quote.cautions},
                     {"log_columns", page.parts.log.head}});
}

} // namespace acre::cli
