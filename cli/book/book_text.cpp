#include <fmt/format.h>

#include "cli/book/book_page.h"
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
using lang::money_text;
using lang::terminal_text;

// A change order's price is all of the work, not what it adds: whoever adds up the column counts
// that work twice, unless told what it stands at.
std::string with_changes(const BookPage& page, const engine::Life& life,
                         const engine::Standing& standing) {
    const bool holds = standing.state == "accepted" || standing.state == "finished";
    if (!holds || !life.quote.changes.empty())
        return {};
    const std::int64_t now = page.lives.contract_cents(life, page.day);
    if (now == cents_of_option(life.quote, standing.option))
        return {};
    return wrap(fmt::format("The work of {} stands at {} with its change orders, whose prices are "
                            "of all of the work.",
                            terminal_text(life.quote.quote), cents_text(now)),
                page_width) +
           "\n";
}

// The price of a quote is that of the option taken.
std::string list_text(const BookPage& page, bool color) {
    Table table({{"quote", Align::Left},
                 {"issued", Align::Left},
                 {"job", Align::Left, true},
                 {"price"},
                 {"state", Align::Left}});
    bool any = false;
    std::string changed;
    for (const engine::Life* life : page.lives.all()) {
        const engine::Event& quote = life->quote;
        if (quote.date > page.day)
            continue;
        any = true;
        lang::show_money(quote.money);
        const engine::Standing standing = page.lives.standing(*life, page.day);
        table.row({terminal_text(quote.quote), terminal_text(lang::day_text(quote.date)),
                   terminal_text(quote.title), cents_text(cents_of_option(quote, standing.option)),
                   terminal_text(state_text(standing))});
        changed += with_changes(page, *life, standing);
    }
    if (any)
        return table.text(color) + changed;
    return page.lives.all().empty() ? "no quotes yet\n"
                                    : wrap("no quotes yet on " + lang::day_text(page.day) +
                                               ": the first of this book was issued " +
                                               lang::day_text(page.lives.all().front()->quote.date),
                                           page_width) +
                                          "\n";
}

const char* verdict(const engine::Repriced& quote) {
    if (quote.contribution() < 0)
        return "below cost";
    return quote.loses_money() ? "loses money" : "";
}

// The open quotes, priced with the season of today: what they would cost, and what would be left.
std::string today_text(const std::vector<engine::Repriced>& quotes, bool color) {
    if (quotes.empty())
        return "no open quotes\n";
    Table table({{"open quote", Align::Left},
                 {"job", Align::Left, true},
                 {"quoted"},
                 {"direct cost"},
                 {"overhead"},
                 {"profit"},
                 {"", Align::Left}});
    std::string unanswered;
    for (const engine::Repriced& quote : quotes) {
        const std::string number = terminal_text(quote.number);
        const std::string title = terminal_text(quote.title);
        lang::show_money(quote.money);
        const std::string quoted = cents_text(quote.quoted_cents);
        if (quote.today) {
            table.row({number, title, quoted, money_text(quote.today->cost),
                       money_text(quote.overhead), money_text(quote.profit()), verdict(quote)});
            continue;
        }
        table.row({number, title, quoted, "no price"});
        unanswered +=
            wrap("Quote " + number + " has no price today: " + terminal_text(quote.why_not()),
                 page_width) +
            "\n";
    }
    return not_for_the_customer(color) + "\n" + table.text(color) +
           wrap("Direct cost at the prices of this season, overhead as quoted; what the quoted "
                "price leaves after both is the profit.",
                page_width) +
           "\n" + (unanswered.empty() ? "" : "\n" + unanswered);
}

} // namespace

std::string state_text(const engine::Standing& standing) {
    if (!standing.replaced_by.empty())
        return "replaced by " + standing.replaced_by;
    if (standing.by_date)
        return "lapsed by its date";
    return standing.option.empty() ? standing.state : standing.state + ": " + standing.option;
}

std::string book_text(const BookPage& page, bool color) {
    return page.open_today ? today_text(*page.open_today, color) : list_text(page, color);
}

} // namespace acre::cli
