#include "cli/bridge/bridge_json.h"
#include "cli/compare/compare_page.h"
#include "cli/shared/json/value.h"

namespace acre::cli {
namespace {

Json numbers(const std::vector<double>& values) {
    Json list = Json::array();
    for (const double value : values)
        list.push_back(number(value));
    return list;
}

Json rows_json(const std::vector<engine::CompareRow>& rows) {
    Json out = Json::array();
    for (const engine::CompareRow& row : rows) {
        Json entry = {{"name", row.name},
                      {"label", row.label},
                      {"unit", row.unit},
                      {"values", numbers(row.value)}};
        if (!row.choice.empty())
            entry["shown"] = row.choice;
        out.push_back(std::move(entry));
    }
    return out;
}

Json flips_json(const engine::CompareFlips& flips) {
    static constexpr const char* kinds[] = {"same", "step", "touch", "level"};
    Json out = {{"given", flips.given},
                {"label", flips.label},
                {"unit", flips.unit},
                {"price_unit", flips.price_unit},
                {"from", number(flips.range.low)},
                {"to", number(flips.range.high)},
                {"columns", Json::array()}};
    for (const engine::CompareFlip& flip : flips.columns) {
        Json one = {{"column", flip.column}, {"cut", flip.cut}, {"meetings", Json::array()}};
        for (const engine::CompareMeeting& meeting : flip.meetings)
            one["meetings"].push_back({{"kind", kinds[static_cast<std::size_t>(meeting.kind)]},
                                       {"at", number(meeting.at)},
                                       {"to", number(meeting.to)},
                                       {"cheaper_above", meeting.cheaper_above}});
        if (flip.meetings.empty())
            one["never"] = {{"column_is_cheaper", flip.column_is_cheaper},
                            {"least", number(flip.least)},
                            {"at", number(flip.least_at)}};
        out["columns"].push_back(std::move(one));
    }
    return out;
}

Json over_json(const engine::CompareOver& over) {
    Json out = {{"given", over.given},        {"label", over.label},
                {"unit", over.unit},          {"price_unit", over.price_unit},
                {"places", numbers(over.at)}, {"prices", Json::array()}};
    for (const std::vector<double>& prices : over.price)
        out["prices"].push_back(numbers(prices));
    return out;
}

} // namespace

Document compare_json(const engine::CompareAnswer& comparison) {
    Json out = {
        {"schema", "acrewright.compare/2"}, {"money", money_json()}, {"columns", Json::array()}};
    for (const engine::CompareColumn& column : comparison.columns)
        out["columns"].push_back({{"name", column.name},
                                  {"cents", column.price_cents},
                                  {"at_minimum", column.at_minimum},
                                  {"cheapest", column.cheapest}});
    out["unanswered"] = comparison.unanswered;
    out["cheapest"] = comparison.cheapest ? Json(*comparison.cheapest) : Json(nullptr);
    out["prices"] = rows_json(comparison.prices);
    if (!comparison.blocks.empty())
        out["blocks"] = rows_json(comparison.blocks);
    out["costs"] = rows_json(comparison.costs);
    out["quantities"] = rows_json(comparison.quantities);
    out["differences"] = rows_json(comparison.differences);
    out["why"] = Json::array();
    for (const engine::CompareWhy& why : comparison.why)
        if (why.bridge)
            out["why"].push_back({{"column", why.column}, {"bridge", *bridge_json(*why.bridge)}});
        else
            out["why"].push_back({{"column", why.column}, {"why_not", why.why_not}});
    if (comparison.flips)
        out["flips"] = flips_json(*comparison.flips);
    if (comparison.over)
        out["over"] = over_json(*comparison.over);
    return answered(std::move(out));
}

} // namespace acre::cli
