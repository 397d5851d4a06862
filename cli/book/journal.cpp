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
    return out;
}

} // namespace acre::cli
