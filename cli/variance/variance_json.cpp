#include <string>

#include "cli/shared/json/value.h"
#include "cli/variance/earned_json.h"
#include "cli/variance/variance_page.h"

namespace acre::cli {
namespace {

std::string source_text(const engine::QuantityFrom& from) {
    if (!from.log)
        return "quote";
    if (from.how == engine::Counting::Meter)
        return "hours";
    return from.how == engine::Counting::Days ? "days" : from.column;
}
Json counted_json(const engine::CountedRow& row) {
    Json json = {{"name", row.line.name},        {"unit", row.line.unit},
                 {"machine", row.line.machine},  {"quoted", number(row.line.quoted)},
                 {"logged", number(row.logged)}, {"per_hour", nullptr}};
    if (row.per_hour)
        json["per_hour"] = {{"value", number(row.per_hour->value)},
                            {"standard_error", number(row.per_hour->standard_error)},
                            {"days", row.per_hour->days},
                            {"unit", row.line.unit + "/h"}};
    return json;
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
                 {"as_quoted", row.as_quoted()},
                 {"by_quantity", number(row.by_quantity)},
                 {"by_rate", number(row.by_rate)}};
    json["by_hours"] = row.by_hours ? number(*row.by_hours) : Json(nullptr);
    json["by_burn"] = row.by_burn ? number(*row.by_burn) : Json(nullptr);
    return json;
}

} // namespace

Document variance_json(const VariancePage& page) {
    const engine::VarianceAnswer& variance = page.variance;
    Json out = {{"schema", "acrewright.variance/4"},
                {"money", money_json()},
                {"quote", variance.quote},
                {"price", number(variance.price)},
                {"overhead", number(variance.overhead)},
                {"income_from", page.income.from},
                {"bill", page.income.bill.empty() ? Json(nullptr) : Json(page.income.bill)},
                {"billed", page.income.bill.empty() ? Json(nullptr) : number(page.income.billed)},
                {"why_no_bill", page.income.why.empty() ? Json(nullptr) : Json(page.income.why)},
                {"quoted", earned(variance.price, variance.quoted_cost, variance.overhead)},
                {"actual", earned(variance.income, variance.actual_cost, variance.overhead)},
                {"rows", Json::array()}};
    for (const engine::VarianceRow& row : variance.rows)
        out["rows"].push_back(row_json(row));
    out["log"] = {{"days", variance.log.days},
                  {"hours", number(variance.log.hours)},
                  {"down", Json::object()},
                  {"share", number(variance.share)},
                  {"scaled_by", number(variance.scaled_by)},
                  {"unlogged", Json::array()}};
    for (const auto& [column, left] : variance.log.unlogged)
        out["log"]["unlogged"].push_back(
            {{"column", column}, {"days", left.days}, {"hours", number(left.hours)}});
    for (const auto& [cause, hours] : variance.log.down)
        out["log"]["down"][cause] = hours;
    out["counted"] = Json::array();
    for (const engine::CountedRow& row : variance.counted)
        out["counted"].push_back(counted_json(row));
    out["unknown_costs"] = variance.unknown_costs;
    return answered(std::move(out));
}

} // namespace acre::cli
