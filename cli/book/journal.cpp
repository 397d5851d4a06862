#include <map>

#include <fmt/format.h>

#include "cli/book/book_page.h"
#include "cli/shared/text/figures.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

// A word of a journal's own line: its marks there would end it.
std::string in_line(const std::string& text) {
    std::string safe;
    for (const char c : lang::terminal_text(text))
        safe += c == ';' || c == '|' || c == '\n' ? ' ' : c;
    return safe;
}

std::string account(const std::string& item) {
    return item.empty() ? "work" : item;
}

std::string amount(std::int64_t cents, const std::string& code) {
    return fmt::format("{} {}", bare_text(static_cast<double>(cents) / 100, 2), code);
}

std::string bill_account(const engine::RecordBilled& item) {
    if (item.kind == "item")
        return "income:work:" + account(item.name);
    return "income:" + (item.kind.empty() ? std::string("other") : item.kind);
}

// One transaction a bill: each account at what the bill before of the quote did not have.
std::string bills_of(const BookPage& page) {
    std::string out;
    std::map<std::string, std::map<std::string, std::int64_t>> before;
    for (const engine::BillRecord& bill : page.bills) {
        const engine::Event& quote = page.lives.find(bill.quote)->quote;
        const std::string who = customer_id(quote.who);
        out += fmt::format("\n{} ({}) bill of {}: {}\n    ; for {}\n", bill.date, bill.bill,
                           bill.quote, in_line(quote.title), lang::terminal_text(quote.who));
        std::map<std::string, std::int64_t> now;
        for (const engine::RecordBilled& item : bill.items)
            if (item.kind != "deposit" && item.kind != "before")
                now[bill_account(item)] += item.cents;
        std::map<std::string, std::int64_t> posted = now;
        for (const auto& [name, cents] : before[bill.quote])
            posted[name] -= cents;
        for (const auto& [name, cents] : posted)
            if (cents != 0)
                out += fmt::format("    {}  {}\n", name, amount(-cents, quote.money.code));
        before[bill.quote] = std::move(now);
        if (const std::int64_t deposits = sums_of(bill).deposits; deposits != 0)
            out += fmt::format("    deposits:customers:{}  {}\n", who,
                               amount(deposits, quote.money.code));
        out += fmt::format("    receivables:customers:{}  {}\n", who,
                           amount(bill.cents, quote.money.code));
    }
    return out.empty() ? out
                       : "\n; Bills, each at what the one before of its quote did not have. "
                         "Payments are kept elsewhere.\n" +
                             out;
}

} // namespace

// One transaction an event: what the customer owes once the work is done, against the work.
std::string journal_text(const BookPage& page) {
    std::string out = "; Accepted work. No receivable yet: a bill makes one.\n";
    std::int64_t record = 0, sum = 0;
    const Entry* open = nullptr;
    const auto close = [&] {
        if (open != nullptr)
            out += fmt::format("    contracts:customers:{}  {}\n", customer_id(open->issued->who),
                               amount(sum, open->issued->money.code));
        sum = 0;
    };
    const std::vector<Entry> entries = entries_of(page.lives, page.day);
    for (const Entry& entry : entries) {
        if (entry.accepted_cents == 0)
            continue;
        if (open == nullptr || entry.record != record || entry.quote != open->quote) {
            close();
            const engine::Event& quote = *entry.issued;
            out += fmt::format("\n{} ({}) {}: {}  ; record: {:06}\n", entry.date, entry.quote,
                               entry.event, in_line(quote.title), entry.record);
            out += fmt::format("    ; for {}\n", lang::terminal_text(quote.who));
        }
        open = &entry;
        record = entry.record;
        sum += entry.accepted_cents;
        out += fmt::format("    contracts:work:{}  {}\n", account(entry.item),
                           amount(-entry.accepted_cents, entry.issued->money.code));
    }
    close();
    return out + bills_of(page);
}

} // namespace acre::cli
