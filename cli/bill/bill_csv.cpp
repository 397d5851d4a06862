#include <fmt/format.h>

#include "cli/bill/bill_page.h"
#include "cli/shared/quote_book/customer_id.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/figures.h"

namespace acre::cli {

// One row a line, which add up to what is to be paid.
std::string bill_csv(const BillPage& bill) {
    std::string out = "bill,date,due,quote,terms_of,customer_id,customer,job,line,kind,item,title,"
                      "quantity,unit,rate,amount,money,clause\r\n";
    const engine::QuoteRecord& quote = bill.work.quote;
    std::size_t count = 0;
    for (const engine::BillLine& line : bill.answer.lines) {
        const bool lump = line.per.empty();
        out += fmt::format(
            "{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{}\r\n", csv_field(bill.number),
            csv_field(bill.date), csv_field(bill.answer.due),
            csv_field(bill.work.contract.steps.front().quote), csv_field(quote.number),
            customer_id(quote.who), csv_field(quote.who), csv_field(quote.title), ++count,
            csv_field(line.kind), csv_field(line.name), csv_field(line.title),
            lump ? "" : bare_text(line.quantity), csv_field(line.per),
            lump ? "" : bare_text(line.rate), bare_text(static_cast<double>(line.cents) / 100, 2),
            csv_field(quote.money.code), csv_field(line.clause));
    }
    return out;
}

} // namespace acre::cli
