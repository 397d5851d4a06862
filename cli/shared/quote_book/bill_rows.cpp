#include "cli/shared/quote_book/bill_rows.h"

#include <fmt/format.h>

#include "cli/shared/quote_book/customer_id.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/figures.h"

namespace acre::cli {

std::string bill_csv_heading() {
    return "bill,date,due,quote,terms_of,customer_id,customer,job,line,kind,item,title,quantity,"
           "unit,"
           "rate,amount,money,clause\r\n";
}

std::string bill_csv_rows(const engine::BillRecord& bill, const std::string& customer,
                          const std::string& job, const std::string& money) {
    std::string out;
    std::size_t count = 0;
    for (const engine::RecordBilled& line : bill.items) {
        const bool lump = line.per.empty();
        out += fmt::format(
            "{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{}\r\n", csv_field(bill.bill),
            csv_field(bill.date), csv_field(bill.due), csv_field(bill.quote),
            csv_field(bill.terms_of), customer_id(customer), csv_field(customer), csv_field(job),
            ++count, csv_field(line.kind), csv_field(line.name), csv_field(line.title),
            lump ? "" : bare_text(line.quantity), csv_field(line.per),
            lump ? "" : bare_text(line.rate), bare_text(static_cast<double>(line.cents) / 100, 2),
            csv_field(money), csv_field(line.clause));
    }
    return out;
}

std::string bill_csv_rows(const engine::BillRecord& bill, const engine::Lives& lives) {
    const engine::Life* terms = lives.find(bill.terms_of);
    const engine::Event& quote = (terms == nullptr ? lives.find(bill.quote) : terms)->quote;
    return bill_csv_rows(bill, quote.who, quote.title, quote.money.code);
}

} // namespace acre::cli
