#include <cmath>

#include <fmt/format.h>

#include "cli/bill/bill_page.h"
#include "cli/shared/text/figures.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "engine/words/billing.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"
#include "lang/units/catalog.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::cents_text;
using lang::terminal_text;

void head(const BillPage& bill, bool color, std::string& out) {
    const engine::QuoteRecord& quote = bill.work.quote;
    if (!quote.firm.empty())
        out += heading(terminal_text(quote.firm), color);
    std::string about;
    for (const char* word : {"address", "license", "insurance"})
        for (const auto& [name, text] : quote.firm_words)
            if (name == word)
                about += (about.empty() ? "" : "; ") + terminal_text(text);
    if (!about.empty())
        out += paragraph(about, "");
    out += (out.empty() ? "" : "\n") +
           heading(bill.number.empty() ? "Draft of a bill, " + lang::day_text(bill.date)
                                       : "Bill " + bill.number + ", " + lang::day_text(bill.date),
                   color);
    std::string who = quote.who.empty() ? "" : "for " + terminal_text(quote.who) + ": ";
    out += paragraph(who + terminal_text(quote.title.empty() ? quote.model : quote.title));
    if (!bill.answer.due.empty())
        out += paragraph("to be paid by " + lang::day_text(bill.answer.due));
    if (!bill.note.empty())
        out += paragraph(terminal_text(bill.note));
}

// What was agreed, change order by change order.
void contract(const BillPage& bill, std::string& out) {
    out += "\nWhat was agreed\n";
    Table table({{"", Align::Left, true}, {"accepted", Align::Left}, {"change"}, {"stands at"}});
    std::int64_t before = 0;
    for (const engine::ContractStep& step : bill.work.contract.steps) {
        const bool first = &step == bill.work.contract.steps.data();
        table.row({(first ? "quote " : "change order ") + terminal_text(step.quote) +
                       (step.option.empty() ? "" : ", " + terminal_text(step.option)),
                   lang::short_day_text(step.accepted),
                   first ? "" : money_change(step.cents - before), cents_text(step.cents)});
        before = step.cents;
    }
    out += table.text();
}

} // namespace

std::string quantity_of(const engine::BillLine& line) {
    if (line.per.empty() || (line.quantity == 0 && line.cents == 0))
        return {};
    // Trees and loads are counted, a day of standby is mostly a part of one.
    const bool counted =
        line.quantity == std::floor(line.quantity) && !lang::UnitCatalog().is_built_in(line.per);
    return lang::fixed_text(line.quantity, counted             ? 0
                                           : line.per == "day" ? 4
                                                               : 2) +
           " " + terminal_text(line.per);
}

std::string rate_of(const engine::BillLine& line) {
    if (line.per.empty() || (line.rate == 0 && line.cents == 0 && line.quantity == 0))
        return {};
    return engine::billed_rate_text(line.rate, terminal_text(line.per));
}

std::string rests_on(const engine::BillLine& line, const std::string& quote) {
    if (line.terms.empty())
        return {};
    std::string names;
    for (const std::string& term : line.terms)
        names += (names.empty() ? "" : ", ") + terminal_text(term);
    return "quote " + terminal_text(quote) + ": " + names;
}

std::string sealed_as(const engine::Record& record) {
    return fmt::format("record {} of the book, sealed {}", record.index, record.seal.substr(0, 16));
}

std::string bill_text(const BillPage& bill, bool color) {
    std::string out;
    head(bill, color, out);
    contract(bill, out);
    out += "\nWhat is billed\n";
    Table table(
        {{"", Align::Left, true}, {"quantity"}, {"rate"}, {"amount", Align::Right, false, true}});
    bool took_off = false;
    std::size_t count = 0;
    const auto total = [&](const char* words, std::int64_t cents) {
        table.rule();
        table.row({words, "", "", cents_text(cents)}, true);
    };
    for (const engine::BillLine& line : bill.answer.lines) {
        if (!took_off && (line.kind == "deposit" || line.kind == "before")) {
            took_off = true;
            total("work", bill.answer.work_cents);
        }
        table.row({fmt::format("{}  {}", ++count, terminal_text(line.title)), quantity_of(line),
                   rate_of(line), cents_text(line.cents)});
    }
    total(bill.answer.due_cents < 0 ? "to be credited" : "to be paid", bill.answer.due_cents);
    out += table.text(color);
    out += "\nWhat each line rests on\n";
    count = 0;
    for (const engine::BillLine& line : bill.answer.lines) {
        const std::string terms = rests_on(line, bill.work.quote.number);
        out += paragraph(terminal_text(line.clause) + (terms.empty() ? "" : " [" + terms + "]"),
                         fmt::format("  {}  ", ++count));
    }
    out +=
        "\n" + paragraph("The terms are those of quote " + terminal_text(bill.work.quote.number) +
                             ", " + sealed_as(bill.work.record) +
                             ". A computed account of the work, for the firm's invoice: taxes "
                             "and payments are kept there.",
                         "");
    return out;
}

} // namespace acre::cli
