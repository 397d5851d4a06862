#include "cli/quote/page_parts.h"

#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "lang/units/number_text.h"

namespace acre::cli {

using Json = nlohmann::json;

std::vector<PageItem> page_items(const Json& record) {
    std::vector<PageItem> items;
    for (const Json& item : record.value("items", Json::array())) {
        PageItem& row = items.emplace_back();
        row.title = item.value("title", std::string());
        const std::string per = item.value("per", std::string());
        const auto cents = item.value("cents", std::int64_t{0});
        const double quantity = item.value("quantity", 0.0);
        if (!per.empty() && quantity > 0)
            row.basis = fmt::format(
                "{} at {}", lang::quantity_text(quantity, per),
                lang::quantity_text(std::round(static_cast<double>(cents) / quantity) / 100,
                                    "$/" + per));
        row.amount = lang::cents_text(cents);
    }
    return items;
}

PageTotal page_total(const Json& record) {
    const Json price = record.value("price", Json::object());
    const auto cents = price.value("cents", std::int64_t{0});
    const double quantity = price.value("quantity", 0.0);
    const std::string per = price.value("per", std::string());
    PageTotal total;
    total.amount = lang::cents_text(cents);
    if (!per.empty() && quantity > 0)
        total.all_in = lang::quantity_text(std::round(static_cast<double>(cents) / quantity) / 100,
                                           "$/" + per) +
                       " all in";
    return total;
}

std::vector<std::string> page_cautions(const Json& record) {
    std::vector<std::string> cautions;
    for (const Json& caution : record.value("cautions", Json::array()))
        if (caution.is_string())
            cautions.push_back(caution.get<std::string>());
    return cautions;
}

std::vector<PageFuelRow> page_fuel_rows(const FuelTable& table) {
    std::vector<PageFuelRow> rows;
    for (const FuelStep& step : table.steps) {
        const std::string from = fmt::format("${:.2f}", step.from);
        PageFuelRow& row = rows.emplace_back();
        if (step.cents == 0)
            row.price = fmt::format("below ${:.2f} a gallon", step.below);
        else if (std::isfinite(step.below))
            row.price = fmt::format("{} to ${:.2f} a gallon", from, step.below - 0.01);
        else
            row.price = from + " a gallon and above";
        row.surcharge = step.cents == 0 ? "none" : lang::cents_text(step.cents) + "/" + table.per;
    }
    return rows;
}

} // namespace acre::cli
