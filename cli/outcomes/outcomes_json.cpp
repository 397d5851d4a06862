#include "cli/outcomes/outcomes_page.h"
#include "cli/shared/json/value.h"

namespace acre::cli {
namespace {

Json share_json(const engine::Range& range) {
    return {{"low", number(range.low)}, {"high", number(range.high)}};
}

Json cost_json(const engine::CostOutcome& job) {
    const bool placed = job.why_not.empty();
    Json marks = Json::array();
    for (const double value : job.at_mark)
        marks.push_back(placed ? number(value) : Json(nullptr));
    return {{"quote", job.quote},
            {"title", job.title},
            {"money", money_json(job.money)},
            {"cost", placed ? number(job.cost) : Json(nullptr)},
            {"marks", std::move(marks)},
            {"percentile",
             placed && !job.below_all && !job.above_all ? number(job.share) : Json(nullptr)},
            {"below_all", job.below_all},
            {"above_all", job.above_all},
            {"why_not", job.why_not}};
}

Json table_json(const engine::WinTable& table) {
    Json json = {{"by", table.what},
                 {"unit", table.unit},
                 {"of", table.of.empty() ? Json(nullptr) : Json(table.of)},
                 {"without", table.without},
                 {"bands", Json::array()},
                 {"difference", table.bands.empty() ? Json(nullptr) : share_json(table.difference)},
                 {"says_something", table.says_something}};
    for (const engine::WinBand& band : table.bands)
        json["bands"].push_back({{"from", number(band.low)},
                                 {"to", number(band.high)},
                                 {"quotes", band.quotes},
                                 {"won", band.won},
                                 {"share", share_json(band.share)}});
    return json;
}

} // namespace

Document outcomes_json(const OutcomesPage& page) {
    Json out = {{"schema", "acrewright.outcomes/1"}, {"money", money_json()},
                {"level", engine::outcome_level},    {"jobs", Json::array()},
                {"placed", page.risk.placed},        {"marks", Json::array()},
                {"swings", Json::array()},           {"left_out", Json::array()}};
    for (const engine::CostOutcome& job : page.risk.jobs)
        out["jobs"].push_back(cost_json(job));
    for (const engine::MarkCount& mark : page.risk.marks)
        out["marks"].push_back({{"mark", number(mark.mark)},
                                {"below", mark.below},
                                {"share", share_json(mark.share)},
                                {"fits", mark.fits}});
    for (const engine::SwingCount& swing : page.risk.swings)
        out["swings"].push_back({{"label", swing.label},
                                 {"unit", swing.unit},
                                 {"jobs", swing.jobs},
                                 {"below", swing.below},
                                 {"above", swing.above},
                                 {"outside", share_json(swing.outside)},
                                 {"too_narrow", swing.too_narrow},
                                 {"moved_by", swing.moved_by}});
    for (const LeftOut& one : page.left_out)
        out["left_out"].push_back({{"quote", one.quote}, {"why", one.why}});
    out["wins"] = {{"quotes", page.wins.quotes},
                   {"won", page.wins.won},
                   {"share", share_json(page.wins.share)},
                   {"tables", Json::array()}};
    for (const engine::WinTable& table : page.wins.tables)
        out["wins"]["tables"].push_back(table_json(table));
    return answered(std::move(out));
}

} // namespace acre::cli
