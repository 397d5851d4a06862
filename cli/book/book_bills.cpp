// The bills of a book: one a line, and for each quote what it stands at beside what was billed.
#include <algorithm>
#include <map>

#include "cli/book/book_page.h"
#include "cli/shared/quote_book/bill_rows.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"
#include "lang/units/money.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::cents_text;
using lang::terminal_text;

// What the bills of one quote come to.
struct BilledOfQuote {
    std::int64_t work = 0; // in the last of them: a bill has all work so far
    std::int64_t off = 0;  // deposits
    std::int64_t due = 0;
};

std::map<std::string, BilledOfQuote> by_quote(const BookPage& page) {
    std::map<std::string, BilledOfQuote> all;
    for (const engine::BillRecord& bill : page.bills) {
        const BillSums sums = sums_of(bill);
        BilledOfQuote& of = all[bill.quote];
        of.work = sums.work;
        of.off += sums.deposits;
        of.due += bill.cents;
    }
    return all;
}

// A total over several kinds of money would be none.
bool one_money(const BookPage& page) {
    const std::vector<const engine::Life*> all = page.lives.all();
    return std::all_of(all.begin(), all.end(), [&](const engine::Life* life) {
        return life->quote.money == all.front()->quote.money;
    });
}

std::string each_bill(const BookPage& page, bool color) {
    Table table({{"bill", Align::Left},
                 {"date", Align::Left},
                 {"pay by", Align::Left},
                 {"quote", Align::Left},
                 {"for", Align::Left, true},
                 {"to be paid"}});
    std::int64_t total = 0;
    for (const engine::BillRecord& bill : page.bills) {
        const engine::Life& life = *page.lives.find(bill.quote);
        lang::show_money(life.quote.money);
        table.row({terminal_text(bill.bill), lang::short_day_text(bill.date),
                   bill.due.empty() ? "" : lang::short_day_text(bill.due),
                   terminal_text(bill.quote), terminal_text(life.quote.who),
                   cents_text(bill.cents)});
        total += bill.cents;
    }
    if (one_money(page)) {
        table.rule();
        table.row({"all bills", "", "", "", "", cents_text(total)}, true);
    }
    return table.text(color);
}

std::string each_quote(const BookPage& page, bool color) {
    Table table({{"quote", Align::Left},
                 {"state", Align::Left, true},
                 {"stands at"},
                 {"work billed"},
                 {"deposits"},
                 {"bills"}});
    const std::map<std::string, BilledOfQuote> billed = by_quote(page);
    BilledOfQuote all;
    std::size_t rows = 0;
    std::int64_t stands = 0;
    for (const engine::Life* life : page.lives.all()) {
        if (life->quote.date > page.day || !life->quote.changes.empty())
            continue;
        const engine::Standing standing = page.lives.standing(*life, page.day);
        const bool holds = standing.state == "accepted" || standing.state == "finished";
        const auto found = billed.find(life->quote.quote);
        if (!holds && found == billed.end())
            continue;
        const BilledOfQuote of = found == billed.end() ? BilledOfQuote() : found->second;
        const std::int64_t contract = holds ? page.lives.contract_cents(*life, page.day) : 0;
        lang::show_money(life->quote.money);
        table.row({terminal_text(life->quote.quote), standing.state,
                   holds ? cents_text(contract) : "", cents_text(of.work), cents_text(-of.off),
                   cents_text(of.due)});
        ++rows;
        stands += contract;
        all.work += of.work;
        all.off += of.off;
        all.due += of.due;
    }
    if (rows == 0)
        return "none yet\n";
    if (one_money(page)) {
        table.rule();
        table.row({"all", "", cents_text(stands), cents_text(all.work), cents_text(-all.off),
                   cents_text(all.due)},
                  true);
    }
    return table.text(color);
}

} // namespace

BillSums sums_of(const engine::BillRecord& bill) {
    BillSums sums;
    for (const engine::RecordBilled& item : bill.items)
        if (item.kind == "deposit")
            sums.deposits -= item.cents;
        else if (item.kind == "before")
            sums.before -= item.cents;
        else
            sums.work += item.cents;
    return sums;
}

std::string bills_text(const BookPage& page, bool color) {
    std::string out = page.bills.empty() ? "no bills yet\n" : "Bills\n" + each_bill(page, color);
    out += "\nAccepted work and what is billed of it\n" + each_quote(page, color);
    return out + "\n" +
           paragraph("A bill has what was measured, fuel steps and standby, so that work billed "
                     "may come to more or less than the work stands at. Payments are kept in the "
                     "firm's accounting: what is owed is what the bills come to, less what was "
                     "paid.",
                     "");
}

std::string bills_csv(const BookPage& page) {
    std::string out = bill_csv_heading();
    for (const engine::BillRecord& bill : page.bills)
        out += bill_csv_rows(bill, page.lives);
    return out;
}

} // namespace acre::cli
