#include "cli/price/price_json.h"

#include "cli/bridge/bridge_json.h"
#include "cli/price/price_text.h"
#include "cli/shared/json/dates.h"
#include "cli/shared/json/value.h"
#include "engine/words/billing.h"
#include "lang/units/number_text.h"

namespace acre::cli {

namespace {

using lang::cents_text;
using lang::money_text;
using lang::quantity_text;

double dollars(std::int64_t cents) {
    return static_cast<double>(cents) / 100;
}

Json job_json(const engine::JobHead& job) {
    Json json;
    json["title"] = job.title;
    json["for"] = job.who;
    json["date"] = job.date.empty() ? Json(nullptr) : Json(job.date);
    json["option"] = job.option;
    json["options"] = job.options;
    json["model"] = job.model;
    json["season"] = job.season;
    json["model_file"] = job.model_file;
    json["season_file"] = job.season_file;
    json["season_unused"] = job.season_unused;
    return json;
}

Json item_json(const engine::ItemRow& item) {
    Json json;
    json["name"] = item.name;
    json["title"] = item.title;
    json["per"] = item.per;
    json["quantity"] = item.per.empty() ? Json(nullptr) : number(item.quantity);
    const bool has_rate = !item.per.empty() && item.quantity != 0;
    json["rate"] = has_rate ? number(item.rate) : Json(nullptr);
    json["rate_text"] = has_rate ? engine::billed_rate_text(item.rate, item.per) : "";
    json["cost"] = number(item.cost);
    json["amount"] = dollars(item.cents);
    json["amount_cents"] = item.cents;
    json["amount_text"] = cents_text(item.cents);
    json["steps"] = Json::array();
    for (const engine::StepRow& step : item.steps) {
        json["steps"].push_back({{"written", step.text},
                                 {"text", step.shown},
                                 {"added", number(step.added)},
                                 {"sum", number(step.sum)}});
    }
    return json;
}

Json price_of(const engine::Estimate& estimate) {
    const bool per = !estimate.per.empty();
    Json json;
    json["total"] = dollars(estimate.price_cents);
    json["total_cents"] = estimate.price_cents;
    json["total_text"] = cents_text(estimate.price_cents);
    const bool has_rate = per && estimate.per_quantity != 0;
    json["per_unit"] = has_rate ? number(estimate.price_per_unit) : Json(nullptr);
    json["per_unit_text"] =
        has_rate ? quantity_text(estimate.price_per_unit, "$/" + estimate.per) : "";
    json["unit"] = estimate.per;
    json["quantity"] = per ? number(estimate.per_quantity) : Json(nullptr);
    json["items"] = Json::array();
    for (const engine::ItemRow& item : estimate.items)
        json["items"].push_back(item_json(item));
    return json;
}

Json cost_json(const engine::CostRow& cost) {
    Json json;
    json["name"] = cost.name;
    json["label"] = cost.label;
    json["part"] = cost.part;
    json["rate"] = number(cost.rate);
    json["rate_unit"] = cost.rate_unit;
    json["rate_text"] = quantity_text(cost.rate, cost.rate_unit);
    json["quantity"] = number(cost.quantity);
    json["quantity_unit"] = cost.quantity_unit;
    json["quantity_text"] = quantity_text(cost.quantity, cost.quantity_unit);
    json["amount"] = number(cost.amount);
    json["amount_text"] = money_text(cost.amount);
    json["per_unit"] = number(cost.per_unit);
    json["share"] = number(cost.share);
    return json;
}

Json by_hour(const engine::PriceAnswer& answer) {
    const engine::HourlyCosts& hourly = answer.by_hour;
    if (hourly.hours == 0)
        return nullptr;
    Json json = {{"hours", hourly.hours}, {"rate", hourly.per_hour}, {"costs", Json::array()}};
    for (const std::size_t cost : hourly.costs)
        json["costs"].push_back(answer.estimate.costs[cost].name);
    return json;
}

Json earnings_json(const engine::Estimate& estimate) {
    const engine::Earnings& e = estimate.earnings;
    return {{"direct_cost", number(e.direct_cost)},
            {"overhead", number(e.overhead)},
            {"reserve", number(e.reserve)},
            {"contribution", number(e.contribution())},
            {"contribution_share", number(e.share(e.contribution()))},
            {"profit", number(e.profit())},
            {"margin", number(e.margin())},
            {"profit_if_the_reserve_is_spent", number(e.after_reserve())},
            {"margin_if_the_reserve_is_spent", number(e.share(e.after_reserve()))},
            {"profit_made_of",
             {{"target_margin", number(e.target_margin)},
              {"target_margin_text", estimate.target_margin},
              {"markup", number(e.markup)},
              {"minimum", number(e.minimum)},
              {"rounding", number(e.rounding)},
              {"reserve", number(e.reserve)},
              {"uncovered_cost", number(-e.uncovered)}}}};
}

Json changed_json(const engine::ChangedPrice& changed) {
    Json json = {{"figures", Json::array()}, {"why", nullptr}};
    for (const engine::ChangedFigure& figure : changed.figures)
        json["figures"].push_back({{"name", figure.name},
                                   {"label", figure.label},
                                   {"unit", figure.unit},
                                   {"before", number(figure.before)},
                                   {"after", number(figure.after)}});
    if (changed.why)
        json["why"] = *bridge_json(*changed.why);
    return json;
}

// A number, the name of a choice, or null where there is no answer.
Json value_json(const engine::LineEntry& line) {
    Json json;
    json["value"] = !line.is_choice       ? number(line.value)
                    : line.choice.empty() ? Json(nullptr)
                                          : Json(line.choice);
    json["unit"] = line.unit;
    json["text"] = line.text;
    return json;
}

Json figure_json(const engine::BlockFigure& figure) {
    if (figure.text.empty())
        return nullptr;
    return {{"value", number(figure.value)}, {"unit", figure.unit}, {"text", figure.text}};
}

Json blocks_json(const engine::BlockPrices& prices) {
    Json json = {{"blocks", Json::array()}, {"shared", Json::array()}};
    for (const engine::BlockPrice& block : prices.blocks)
        json["blocks"].push_back({{"name", block.name},
                                  {"label", block.label},
                                  {"acres", figure_json(block.acres)},
                                  {"depth", figure_json(block.depth)},
                                  {"soil", figure_json(block.soil)},
                                  {"pace", figure_json(block.pace)},
                                  {"hours", figure_json(block.hours)},
                                  {"days", figure_json(block.days)},
                                  {"cost", number(block.cost)},
                                  {"cents", block.cents},
                                  {"price_per_acre", number(block.per_acre)}});
    for (const engine::BlockPrices::Shared& shared : prices.shared)
        json["shared"].push_back(
            {{"title", shared.title}, {"cost", number(shared.cost)}, {"cents", shared.cents}});
    json["one_rate"] = Json::array();
    for (const engine::BlockPrices::OneRate& one : prices.one_rate)
        json["one_rate"].push_back(
            {{"title", one.title}, {"rate", number(one.rate)}, {"per", one.per}});
    json["cost"] = number(prices.cost);
    json["cents"] = prices.cents;
    return json;
}

void put_lines(Json& json, const std::vector<engine::LineEntry>& lines) {
    // Appended: an object in the order of its keys would search all of them for each new one, and
    // names of lines differ.
    Json::object_t all_lines;
    Json::object_t all_givens;
    for (const engine::LineEntry& line : lines) {
        Json entry = value_json(line);
        entry["part"] = line.part;
        entry["label"] = line.label;
        all_lines.emplace_back(line.name, std::move(entry));
        if (line.set_by.empty())
            continue;
        Json given = value_json(line);
        given["set_by"] = line.set_by;
        given["place"] = line.place;
        given["because"] = line.because;
        all_givens.emplace_back(line.name, std::move(given));
    }
    json["lines"] = std::move(all_lines);
    json["givens"] = std::move(all_givens);
}

} // namespace

Document price_json(const engine::PriceAnswer& answer,
                    const std::optional<engine::ChangedPrice>& changed) {
    const engine::Estimate& estimate = answer.estimate;
    Json json;
    json["schema"] = "acrewright.price/2";
    json["money"] = money_json();
    json["job"] = job_json(answer.job);
    json["dates"] = answer.dates ? dates_json(*answer.dates) : Json(nullptr);
    json["price"] = answer.has_price ? price_of(estimate) : Json(nullptr);
    json["cost"] = {{"total", number(estimate.cost_total)},
                    {"total_text", money_text(estimate.cost_total)}};
    json["cost"]["by_hour"] = by_hour(answer);
    json["earnings"] = answer.has_price ? earnings_json(estimate) : Json(nullptr);
    json["costs"] = Json::array();
    for (const engine::CostRow& cost : estimate.costs)
        json["costs"].push_back(cost_json(cost));
    put_lines(json, answer.lines);
    json["conditions"] = answer.conditions;
    json["cautions"] = Json::array();
    json["outside_tested_range"] = Json::array();
    for (const engine::CautionRow& caution : estimate.cautions) {
        json["cautions"].push_back(caution.text);
        if (caution.tested_range)
            json["outside_tested_range"].push_back(caution.text);
    }
    if (!answer.blocks.blocks.empty())
        json["blocks"] = blocks_json(answer.blocks);
    json["changed"] = changed ? changed_json(*changed) : Json(nullptr);
    json["note"] = standing_line;
    return answered(std::move(json));
}

} // namespace acre::cli
