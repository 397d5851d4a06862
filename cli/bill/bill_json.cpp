#include "cli/bill/bill_page.h"
#include "cli/shared/json/value.h"

namespace acre::cli {

Document bill_json(const BillPage& bill) {
    const engine::QuoteRecord& quote = bill.work.quote;
    Json out = {{"schema", "acrewright.bill/1"},
                {"money", money_json(quote.money)},
                {"bill", bill.number.empty() ? Json(nullptr) : Json(bill.number)},
                {"date", bill.date},
                {"due", bill.answer.due.empty() ? Json(nullptr) : Json(bill.answer.due)},
                {"quote", bill.work.contract.steps.front().quote},
                {"terms_of", quote.number},
                {"for", quote.who},
                {"job", quote.title},
                {"note", bill.note},
                {"product", bill.product},
                {"contract", Json::array()},
                {"lines", Json::array()}};
    for (const engine::ContractStep& step : bill.work.contract.steps)
        out["contract"].push_back({{"quote", step.quote},
                                   {"option", step.option},
                                   {"accepted", step.accepted},
                                   {"cents", step.cents}});
    for (const engine::BillLine& line : bill.answer.lines) {
        const bool lump = line.per.empty();
        out["lines"].push_back({{"kind", line.kind},
                                {"name", line.name},
                                {"title", line.title},
                                {"per", line.per},
                                {"quantity", lump ? Json(nullptr) : number(line.quantity)},
                                {"rate", lump ? Json(nullptr) : number(line.rate)},
                                {"cents", line.cents},
                                {"clause", line.clause},
                                {"terms", line.terms}});
    }
    out["work_cents"] = bill.answer.work_cents;
    out["due_cents"] = bill.answer.due_cents;
    return answered(std::move(out));
}

} // namespace acre::cli
