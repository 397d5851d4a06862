#include "cli/shared/quote_book/reprice.h"

#include <fmt/format.h>

#include "cli/shared/json/value.h"
#include "engine/book/record.h"
#include "engine/driver.h"
#include "engine/questions/estimate.h"

namespace acre::cli {

lang::Outcome<lang::Loaded> SeasonLoader::load(lang::ReferenceKind kind, std::string_view reference,
                                               std::string_view from) {
    if (kind != lang::ReferenceKind::Season)
        return inner_.load(kind, reference, from);
    return lang::Loaded{name_, text_};
}

Repriced reprice_with_season(const Quote& quote, const std::string& season_name,
                             const std::string& season_text) {
    Repriced result;
    result.number = quote.number;
    const nlohmann::json job = quote.record.value("job", nlohmann::json::object());
    const nlohmann::json price = quote.record.value("price", nlohmann::json::object());
    result.title = job.value("title", std::string());
    result.quoted_cents = price.value("cents", std::int64_t{0});
    result.cost_then = price.value("cost", 0.0);
    const auto request = engine::request_of(quote.record);
    if (!request) {
        result.why_not = "the record lacks its texts";
        return result;
    }
    const engine::UsedTexts texts = engine::used_texts_of(quote.record);
    engine::UsedTextsLoader own(texts);
    SeasonLoader loader(own, season_name, season_text);
    const lang::Outcome<engine::Job> again = engine::make_job(*request, loader);
    const lang::Outcome<engine::Estimate> estimate =
        again ? engine::estimate(**again) : lang::Outcome<engine::Estimate>();
    if (!estimate) {
        const lang::Diagnostics& why = (again ? estimate.said : again.said).diagnostics;
        result.why_not = why.all().empty() ? "no price" : why.all()[0].title;
        return result;
    }
    result.cost_now = estimate->cost_total;
    result.cents_now = estimate->price_cents;
    return result;
}

std::string book_json(const std::vector<Quote>& quotes, const std::vector<Repriced>& repriced,
                      bool with_season) {
    Json out = {{"schema", "acrewright.book/1"}, {"quotes", Json::array()}};
    for (const Quote& quote : quotes) {
        const nlohmann::json price = quote.record.value("price", nlohmann::json::object());
        const nlohmann::json job = quote.record.value("job", nlohmann::json::object());
        out["quotes"].push_back({{"quote", quote.number},
                                 {"issued", quote.record.value("issued", std::string())},
                                 {"valid_until", quote.record.value("valid_until", std::string())},
                                 {"for", job.value("for", std::string())},
                                 {"job", job.value("title", std::string())},
                                 {"option", job.value("option", std::string())},
                                 {"state", quote.state},
                                 {"state_date", quote.state_date},
                                 {"note", quote.state_note},
                                 {"replaced_by", quote.replaced_by},
                                 {"cents", price.value("cents", std::int64_t{0})}});
    }
    if (with_season) {
        out["open_today"] = Json::array();
        for (const Repriced& row : repriced)
            out["open_today"].push_back(
                {{"quote", row.number},
                 {"quoted_cents", row.quoted_cents},
                 {"cost_then", number(row.cost_then)},
                 {"cost_now", row.why_not.empty() ? number(row.cost_now) : Json(nullptr)},
                 {"cents_now", row.why_not.empty() ? Json(row.cents_now) : Json(nullptr)},
                 {"under_water", row.why_not.empty() &&
                                     row.cost_now * 100 > static_cast<double>(row.quoted_cents)},
                 {"why_not", row.why_not}});
    }
    return document(out);
}

} // namespace acre::cli
