#include "cli/book/book_page.h"
#include "cli/shared/json/value.h"

namespace acre::cli {
namespace {

Json quote_json(const engine::Quote& quote) {
    const engine::QuoteRecord& record = quote.record;
    return {{"quote", record.number},
            {"issued", record.issued},
            {"valid_until", record.valid_until},
            {"for", record.who},
            {"job", record.title},
            {"option", record.option},
            {"state", quote.state},
            {"state_date", quote.state_date},
            {"note", quote.state_note},
            {"replaced_by", quote.replaced_by},
            {"money", money_json(record.money)},
            {"cents", record.price_cents}};
}

Json today_json(const engine::Repriced& quote) {
    return {{"quote", quote.number},
            {"money", money_json(quote.money)},
            {"quoted_cents", quote.quoted_cents},
            {"overhead", number(quote.overhead)},
            {"direct_cost_then", number(quote.cost_then)},
            {"direct_cost_now", quote.today ? number(quote.today->cost) : Json(nullptr)},
            {"cents_now", quote.today ? Json(quote.today->cents) : Json(nullptr)},
            {"contribution", quote.today ? number(quote.contribution()) : Json(nullptr)},
            {"profit", quote.today ? number(quote.profit()) : Json(nullptr)},
            {"loss", quote.today ? Json(quote.loses_money()) : Json(nullptr)},
            {"loss_direct", quote.today ? Json(quote.contribution() < 0) : Json(nullptr)},
            {"why_not", quote.why_not()}};
}

} // namespace

Document book_json(const BookPage& page) {
    Json json = {{"schema", "acrewright.book/2"}, {"quotes", Json::array()}};
    for (const engine::Quote& quote : page.quotes)
        json["quotes"].push_back(quote_json(quote));
    if (page.open_today) {
        json["open_today"] = Json::array();
        for (const engine::Repriced& quote : *page.open_today)
            json["open_today"].push_back(today_json(quote));
    }
    return answered(std::move(json));
}

} // namespace acre::cli
