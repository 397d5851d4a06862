#include <fmt/format.h>

#include "cli/bill/bill_page.h"
#include "cli/shared/html_page.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/figures.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {

std::string bill_html(const BillPage& bill) {
    const engine::QuoteRecord& quote = bill.work.quote;
    const std::string called = bill.number.empty() ? "Draft of a bill" : "Bill " + bill.number;
    std::string out = html_head(called + ", " + quote.title);
    const auto line_of = [&](const char* tag, const std::string& text) {
        if (!text.empty())
            out += fmt::format("<{0}>{1}</{0}>\n", tag, markup_text(text));
    };
    line_of("p", quote.firm);
    for (const auto& [name, text] : quote.firm_words)
        if (name == "address" || name == "license" || name == "insurance")
            line_of("p", text);
    line_of("h1", called + ", " + lang::day_text(bill.date));
    line_of("p", (quote.who.empty() ? "" : "for " + quote.who + ": ") +
                     (quote.title.empty() ? quote.model : quote.title));
    if (!bill.answer.due.empty())
        line_of("p", "to be paid by " + lang::day_text(bill.answer.due));
    line_of("p", bill.note);
    line_of("h2", "What was agreed");
    HtmlTable contract({"", "accepted", "change", "stands at"}, 2);
    std::int64_t before = 0;
    for (const engine::ContractStep& step : bill.work.contract.steps) {
        const bool first = &step == bill.work.contract.steps.data();
        contract.row({(first ? "quote " : "change order ") + step.quote +
                          (step.option.empty() ? "" : ", " + step.option),
                      lang::day_text(step.accepted), first ? "" : money_change(step.cents - before),
                      lang::cents_text(step.cents)});
        before = step.cents;
    }
    out += std::move(contract).finish();
    line_of("h2", "What is billed");
    HtmlTable table({"", "quantity", "rate", "amount", "rests on"}, 1);
    for (const engine::BillLine& line : bill.answer.lines) {
        const std::string terms = rests_on(line, quote.number);
        table.row({line.title, quantity_of(line), rate_of(line), lang::cents_text(line.cents),
                   line.clause + (terms.empty() ? "" : " [" + terms + "]")});
    }
    table.row({"work", "", "", lang::cents_text(bill.answer.work_cents), ""});
    table.row({bill.answer.due_cents < 0 ? "to be credited" : "to be paid", "", "",
               lang::cents_text(bill.answer.due_cents), ""});
    out += std::move(table).finish();
    line_of("footer", "The terms are those of quote " + quote.number + ", " +
                          sealed_as(bill.work.record) +
                          ". A computed account of the work, for the firm's invoice: taxes and "
                          "payments are kept there.");
    return out + html_foot();
}

} // namespace acre::cli
