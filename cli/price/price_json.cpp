#include "cli/price/price_json.h"

#include "cli/price/price_text.h"
#include "cli/shared/json/value.h"
#include "engine/words/words.h"
#include "lang/units/number_text.h"

namespace acre::cli {

namespace {

using lang::cents_text;
using lang::money_text;
using lang::quantity_text;

double dollars(std::int64_t cents) {
    return static_cast<double>(cents) / 100;
}

Json job_json(const lang::JobInfo& job) {
    Json json;
    json["title"] = job.title;
    json["for"] = job.who;
    json["date"] = nullptr;
    if (job.date) {
        char text[16];
        std::snprintf(text, sizeof text, "%04d-%02d-%02d", job.date->year % 10000,
                      job.date->month % 100, job.date->day % 100);
        json["date"] = text;
    }
    json["option"] = job.option;
    json["options"] = job.options;
    json["model"] = job.model_title;
    json["season"] = job.season_title;
    return json;
}

Json item_json(const engine::ItemRow& item) {
    Json json;
    json["name"] = item.name;
    json["title"] = item.title;
    json["per"] = item.per;
    json["quantity"] = item.per.empty() ? Json(nullptr) : number(item.quantity);
    json["rate"] = item.per.empty() ? Json(nullptr) : number(item.rate);
    json["rate_text"] = item.per.empty() ? "" : quantity_text(item.rate, "$/" + item.per);
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
    json["per_unit"] = per ? number(estimate.price_per_unit) : Json(nullptr);
    json["per_unit_text"] = per ? quantity_text(estimate.price_per_unit, "$/" + estimate.per) : "";
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

class Lines {
  public:
    explicit Lines(const engine::PricedJob& job) : job_(job), sheet_(job.sheet()) {}

    // value, unit and text of a line: a number, the name of a choice, or null where there is no
    // answer.
    Json value(lang::LineId id) const {
        const lang::Line& line = sheet_.lines[id];
        const double value = job_.value(id);
        Json json;
        if (line.type.kind == lang::Type::Kind::Choice) {
            const auto& options = sheet_.choices[line.type.choice].options;
            const bool known = value >= 0 && value < static_cast<double>(options.size());
            json["value"] = known ? Json(options[static_cast<std::size_t>(value)]) : Json(nullptr);
            json["unit"] = "";
            json["text"] = known ? options[static_cast<std::size_t>(value)] : "no answer";
        } else {
            json["value"] = number(value);
            json["unit"] = engine::unit_text(sheet_, line);
            json["text"] = engine::value_text(sheet_, id, value);
        }
        return json;
    }

  private:
    const engine::PricedJob& job_;
    const lang::Sheet& sheet_;
};

} // namespace

Document price_json(const engine::PricedJob& job, const engine::Estimate& estimate) {
    const lang::Sheet& sheet = job.sheet();
    Json json;
    json["schema"] = "acrewright.price/1";
    json["job"] = job_json(sheet.job);
    json["price"] = price_of(estimate);
    json["cost"] = {{"total", number(estimate.cost_total)},
                    {"total_text", money_text(estimate.cost_total)}};
    const HourlyCosts hourly = hourly_costs(estimate);
    json["cost"]["by_hour"] =
        hourly.hours > 0 ? Json{{"hours", hourly.hours}, {"rate", hourly.per_hour}} : Json(nullptr);
    json["costs"] = Json::array();
    for (const engine::CostRow& cost : estimate.costs)
        json["costs"].push_back(cost_json(cost));
    const Lines lines(job);
    // Appended: an object in the order of its keys would search all of them for each new one, and
    // names of lines differ.
    Json::object_t all_lines;
    Json::object_t all_givens;
    for (lang::LineId id = 0; id < sheet.lines.size(); ++id) {
        const lang::Line& line = sheet.lines[id];
        Json entry = lines.value(id);
        entry["part"] = line.part == lang::none ? "" : sheet.parts[line.part].title;
        entry["label"] = line.label;
        all_lines.emplace_back(line.name, std::move(entry));
        if (line.given == lang::none || sheet.givens[line.given].settings.empty())
            continue;
        const lang::Setting& setting = sheet.givens[line.given].settings.back();
        Json given = lines.value(id);
        given["set_by"] = engine::layer_text(setting.layer);
        given["place"] = engine::place_text(job.sources(), setting.span);
        given["because"] = setting.because;
        all_givens.emplace_back(line.name, std::move(given));
    }
    json["lines"] = std::move(all_lines);
    json["givens"] = std::move(all_givens);
    json["conditions"] = conditions_met(job.checked(), job.sources());
    json["cautions"] = Json::array();
    json["outside_tested_range"] = Json::array();
    for (const engine::CautionRow& caution : estimate.cautions) {
        json["cautions"].push_back(caution.text);
        if (caution.tested_range)
            json["outside_tested_range"].push_back(caution.text);
    }
    json["note"] = standing_line;
    return answered(std::move(json));
}

} // namespace acre::cli
