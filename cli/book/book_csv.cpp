#include <fmt/format.h>

#include "cli/book/book_page.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/figures.h"

namespace acre::cli {

std::string quotes_csv(const std::vector<engine::Quote>& quotes) {
    std::string out =
        "quote,issued,valid_until,for,job,option,state,state_date,price,per,per_unit,money\r\n";
    for (const engine::Quote& quote : quotes) {
        const engine::QuoteRecord& record = quote.record;
        out += fmt::format("{},{},{},{},{},{},{},{},{},{},{},{}\r\n", csv_field(record.number),
                           csv_field(record.issued), csv_field(record.valid_until),
                           csv_field(record.who), csv_field(record.title), csv_field(record.option),
                           csv_field(state_text(quote)), csv_field(quote.state_date),
                           bare_text(static_cast<double>(record.price_cents) / 100, 2),
                           csv_field(record.per), bare_text(record.price_per_unit, 2),
                           csv_field(record.money.code));
    }
    return out;
}

std::string costs_csv(const std::vector<engine::Quote>& quotes) {
    std::string out = "quote,part,cost,label,rate,rate_unit,quantity,quantity_unit,amount\r\n";
    for (const engine::Quote& quote : quotes)
        for (const engine::RecordCost& cost : quote.record.costs)
            out += fmt::format("{},{},{},{},{},{},{},{},{}\r\n", csv_field(quote.record.number),
                               csv_field(cost.part), csv_field(cost.name), csv_field(cost.label),
                               bare_text(cost.rate), csv_field(cost.rate_unit),
                               bare_text(cost.quantity), csv_field(cost.quantity_unit),
                               bare_text(cost.amount, 2));
    return out;
}

} // namespace acre::cli
