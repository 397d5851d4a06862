#include "cli/shared/json/value.h"
#include "cli/variance/variance_page.h"

namespace acre::cli {
namespace {

const char* source_text(engine::QuantityFrom from) {
    static constexpr const char* names[] = {"quote", "hours", "acres", "gallons", "days"};
    return names[static_cast<std::size_t>(from)];
}
Json learned(const engine::Learned& what, const char* unit) {
    return {{"value", number(what.value)},
            {"standard_error", number(what.standard_error)},
            {"days", what.days},
            {"unit", unit}};
}

Json earned(const engine::VarianceAnswer& variance, double cost) {
    return {{"direct_cost", number(cost)},
            {"contribution", number(variance.contribution(cost))},
            {"profit", number(variance.profit(cost))}};
}

Json row_json(const engine::VarianceRow& row) {
    Json json = {{"cost", row.quoted.name},
                 {"quoted",
                  {{"rate", number(row.quoted.rate)},
                   {"quantity", number(row.quoted.quantity)},
                   {"amount", number(row.quoted_amount)}}},
                 {"actual",
                  {{"rate", number(row.rate)},
                   {"quantity", number(row.quantity)},
                   {"amount", number(row.actual_amount)}}},
                 {"rate_unit", row.quoted.rate_unit},
                 {"quantity_unit", row.quoted.quantity_unit},
                 {"quantity_from", source_text(row.from)},
                 {"rate_from_log", row.rate_known},
                 {"by_quantity", number(row.by_quantity)},
                 {"by_rate", number(row.by_rate)}};
    json["by_hours"] = row.by_hours ? number(*row.by_hours) : Json(nullptr);
    json["by_burn"] = row.by_burn ? number(*row.by_burn) : Json(nullptr);
    return json;
}

} // namespace

Document variance_json(const engine::VarianceAnswer& variance) {
    Json out = {{"schema", "acrewright.variance/2"},
                {"money", money_json()},
                {"quote", variance.quote},
                {"price", number(variance.price)},
                {"overhead", number(variance.overhead)},
                {"quoted", earned(variance, variance.quoted_cost)},
                {"actual", earned(variance, variance.actual_cost)},
                {"rows", Json::array()}};
    for (const engine::VarianceRow& row : variance.rows)
        out["rows"].push_back(row_json(row));
    out["log"] = {{"days", variance.log.days},
                  {"hours", number(variance.log.hours)},
                  {"acres", number(variance.log.acres)},
                  {"gallons", number(variance.log.gallons)},
                  {"down", Json::object()}};
    for (const auto& [cause, hours] : variance.log.down)
        out["log"]["down"][cause] = hours;
    out["learned"] = {{"acres_per_hour", learned(variance.acres_per_hour, "ac/h")},
                      {"gallons_per_hour", learned(variance.gallons_per_hour, "gal/h")}};
    out["unknown_costs"] = variance.unknown_costs;
    return answered(std::move(out));
}

} // namespace acre::cli
