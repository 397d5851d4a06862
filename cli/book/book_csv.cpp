#include <fmt/format.h>

#include "cli/book/book_page.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/figures.h"

namespace acre::cli {
namespace {

std::string money(std::int64_t cents) {
    return bare_text(static_cast<double>(cents) / 100, 2);
}

} // namespace

std::string entries_csv(const BookPage& page) {
    std::string out = "id,record,date,event,quote,customer_id,customer,job,option,item,title,"
                      "offered,accepted,money\r\n";
    for (const Entry& entry : entries_of(page.lives, page.day)) {
        const engine::Event& quote = *entry.issued;
        out += fmt::format("{},{},{},{},{},{},{},{},{},{},{},{},{},{}\r\n", csv_field(entry.id),
                           entry.record, csv_field(entry.date), csv_field(entry.event),
                           csv_field(entry.quote), customer_id(quote.who), csv_field(quote.who),
                           csv_field(quote.title), csv_field(entry.option), csv_field(entry.item),
                           csv_field(entry.title), money(entry.offered_cents),
                           money(entry.accepted_cents), csv_field(quote.money.code));
    }
    return out;
}

std::string costs_heading() {
    return "quote,part,cost,label,rate,rate_unit,quantity,quantity_unit,amount\r\n";
}

std::string costs_csv(const engine::QuoteRecord& quote) {
    std::string out;
    for (const engine::RecordCost& cost : quote.costs)
        out +=
            fmt::format("{},{},{},{},{},{},{},{},{}\r\n", csv_field(quote.number),
                        csv_field(cost.part), csv_field(cost.name), csv_field(cost.label),
                        bare_text(cost.rate), csv_field(cost.rate_unit), bare_text(cost.quantity),
                        csv_field(cost.quantity_unit), bare_text(cost.amount, 2));
    return out;
}

} // namespace acre::cli
