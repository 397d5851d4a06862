#include "cli/bridge/bridge_json.h"
#include "cli/compare/columns.h"
#include "cli/shared/json/value.h"

namespace acre::cli {
namespace {

Json rows_json(const std::vector<CompareRow>& rows) {
    Json out = Json::array();
    for (const CompareRow& row : rows) {
        Json entry = {{"name", row.name},
                      {"label", row.label},
                      {"unit", row.unit},
                      {"values", Json::array()}};
        for (const double value : row.value)
            entry["values"].push_back(number(value));
        if (!row.choice.empty())
            entry["shown"] = row.choice;
        out.push_back(std::move(entry));
    }
    return out;
}

} // namespace

std::string compare_json(const Comparison& comparison) {
    Json out = {{"schema", "acrewright.compare/1"}, {"columns", Json::array()}};
    for (const CompareColumn& column : comparison.columns)
        out["columns"].push_back({{"name", column.name}, {"cents", column.estimate.price_cents}});
    out["unanswered"] = comparison.unanswered;
    out["cheapest"] = comparison.cheapest;
    out["prices"] = rows_json(comparison.prices);
    out["costs"] = rows_json(comparison.costs);
    out["quantities"] = rows_json(comparison.quantities);
    out["differences"] = rows_json(comparison.differences);
    out["why"] = Json::array();
    for (const Comparison::Why& why : comparison.why) {
        if (!why.why_not.empty())
            out["why"].push_back({{"column", why.column}, {"why_not", why.why_not}});
        else
            out["why"].push_back(
                {{"column", why.column},
                 {"bridge", Json::parse(bridge_json(why.bridge, comparison.columns[0].name,
                                                    comparison.columns[why.column].name))}});
    }
    return document(out);
}

} // namespace acre::cli
