#include "cli/book/book_page.h"
#include "cli/shared/json/value.h"

namespace acre::cli {
namespace {

Json quote_json(const BookPage& page, const engine::Life& life) {
    const engine::Event& quote = life.quote;
    const engine::Standing standing = page.lives.standing(life, page.day);
    return {{"quote", quote.quote},
            {"issued", quote.date},
            {"valid_until", quote.valid_until},
            {"for", quote.who},
            {"customer_id", customer_id(quote.who)},
            {"job", quote.title},
            {"option", quote.own_option},
            {"by", quote.by},
            {"state", standing.state},
            {"state_date", standing.date},
            {"state_option", standing.option},
            {"by_date", standing.by_date},
            {"note", standing.note},
            {"replaced_by", standing.replaced_by},
            {"changes", quote.changes},
            {"contract_cents", standing.state == "accepted" || standing.state == "finished"
                                   ? Json(page.lives.contract_cents(life, page.day))
                                   : Json(nullptr)},
            {"money", money_json(quote.money)},
            {"cents", quote.cents}};
}

Json a_bill(const BookPage& page, const engine::BillRecord& bill) {
    const engine::Event& quote = page.lives.find(bill.quote)->quote;
    const BillSums sums = sums_of(bill);
    return {{"bill", bill.bill},
            {"date", bill.date},
            {"due", bill.due.empty() ? Json(nullptr) : Json(bill.due)},
            {"quote", bill.quote},
            {"terms_of", bill.terms_of},
            {"for", quote.who},
            {"customer_id", customer_id(quote.who)},
            {"note", bill.note},
            {"money", money_json(quote.money)},
            {"work_cents", sums.work},
            {"before_cents", sums.before},
            {"deposit_cents", sums.deposits},
            {"cents", bill.cents}};
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
    Json json = {{"schema", "acrewright.book/2"}, {"as_of", page.day}, {"quotes", Json::array()}};
    for (const engine::Life* life : page.lives.all())
        if (life->quote.date <= page.day)
            json["quotes"].push_back(quote_json(page, *life));
    json["bills"] = Json::array();
    for (const engine::BillRecord& bill : page.bills)
        json["bills"].push_back(a_bill(page, bill));
    if (page.open_today) {
        json["open_today"] = Json::array();
        for (const engine::Repriced& quote : *page.open_today)
            json["open_today"].push_back(today_json(quote));
    }
    return answered(std::move(json));
}

} // namespace acre::cli
