#include <fmt/format.h>

#include "cli/quote/quote.h"
#include "cli/quote/quote_json.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_book/customer_id.h"
#include "cli/shared/quote_book/key_file.h"
#include "cli/shared/text/wrap.h"
#include "engine/billing/accepted.h"
#include "engine/book/make_record.h"
#include "engine/book/texts.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"
#include "lang/units/money.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

lang::Diagnostic before_acceptance(const engine::QuoteRecord& quote,
                                   const engine::ContractStep& last) {
    return lang::placeless(lang::Code::R005,
                           fmt::format("quote {} was accepted on {}; a change order of {} cannot "
                                       "change it yet",
                                       last.quote, lang::day_text(last.accepted),
                                       lang::day_text(quote.issued)),
                           {}, {"`--date` is the day of the change order (today)"});
}

// The draft with the next number of the book and the pages that say it.
lang::Outcome<Book::Coming> next_quote(const QuoteDraft& draft, const BookState& state,
                                       Pages& pages) {
    Book::Coming coming{draft.record};
    engine::Record& record = coming.record;
    engine::QuoteRecord quote = draft.quote();
    if (const engine::Event* newest = state.lives.newest())
        record.counter = newest->counter;
    for (const std::string& number : {quote.replaces, quote.changes})
        if (!number.empty())
            if (const auto found = engine::find_quote(state.lives, number); !found)
                return found.said;
    if (quote.changes.empty()) {
        quote.number = engine::give_number(quote, record.counter);
    } else {
        const engine::Life& base = *state.lives.find(quote.changes);
        // No rule of the book, for books have such change orders.
        if (const auto stood = engine::contract_of(state.lives, quote.changes);
            stood && quote.issued < stood->steps.back().accepted)
            return before_acceptance(quote, stood->steps.back());
        quote.number = fmt::format("{}-C{}", quote.changes, base.change_orders.size() + 1);
        quote.before_cents = state.lives.contract_cents(base);
    }
    lang::Outcome<Pages> made = make_pages(draft.wording, quote);
    if (!made)
        return std::move(made.said);
    pages = std::move(*made);
    quote.page_html = engine::carry(quote, pages.html);
    quote.page_text = engine::carry(quote, pages.text);
    record.body = std::move(quote);
    return coming;
}

// The firm of the newest quote before this one, where it is another: two firms with one folder
// would share their numbers.
std::string other_firm(const Book& book, const BookState& state, const std::string& firm) {
    constexpr std::uint64_t looked_at = 100;
    for (std::uint64_t index = state.records; index > 0 && state.records - index < looked_at;
         --index) {
        std::string bytes;
        if (!book.read(engine::record_file(index), bytes).empty())
            break;
        const engine::ReadRecord read = engine::read_record(bytes);
        if (const engine::QuoteRecord* quote = read.record.quote())
            return quote->firm == firm || quote->firm.empty() || firm.empty()
                       ? std::string()
                       : wrap("the quote before it in this book is of the firm `" +
                                  lang::terminal_text(quote->firm) + "`, and this one of `" +
                                  lang::terminal_text(firm) +
                                  "`; a firm has a book of its own (`--book`)",
                              page_width) +
                             "\n";
    }
    return {};
}

// The wrong job's file changes or replaces the quote of somebody else.
std::string other_customer(const BookState& state, const engine::QuoteRecord& quote) {
    for (const std::string& number : {quote.replaces, quote.changes})
        if (const engine::Life* life = number.empty() ? nullptr : state.lives.find(number))
            if (customer_id(life->quote.who) != customer_id(quote.who))
                return wrap("quote " + lang::terminal_text(number) + " is for `" +
                                lang::terminal_text(life->quote.who) + "`, and this one for `" +
                                lang::terminal_text(quote.who) + "`",
                            page_width) +
                       "\n";
    return {};
}

// The same failure, told as what it means for the quote.
lang::Said not_issued(const lang::Said& said) {
    lang::Said told;
    told.sources = said.sources;
    for (lang::Diagnostic fault : said.diagnostics.all()) {
        fault.title.insert(0, "no quote was issued: ");
        told.diagnostics.add(std::move(fault));
    }
    return told;
}

lang::Diagnostic may_be_lost(lang::Diagnostic fault, const std::string& number) {
    fault.title = "quote " + number + " was issued but may be lost in a power cut: " + fault.title;
    return fault;
}

// Copies of the pages. What goes wrong now takes nothing back, and says so.
void write_copies(const QuoteArguments& arguments, const Pages& pages, const std::string& number,
                  Reply& reply) {
    Reply told;
    write_pages(arguments, pages, told);
    for (const lang::Said& said : told.said) {
        lang::Said& kept = reply.said.emplace_back();
        kept.sources = said.sources;
        for (lang::Diagnostic fault : said.diagnostics.all()) {
            fault.notes.push_back("quote " + number +
                                  " was issued anyway, and its page is in the "
                                  "book: `acrewright quote " +
                                  number + " --page FILE`");
            kept.diagnostics.add(std::move(fault));
        }
    }
}

std::string issued_text(const engine::QuoteRecord& quote, const Added& added,
                        const std::string& folder) {
    const std::string what = quote.changes.empty() ? "Quote " : "Change order ";
    const std::string first = what + quote.number +
                              " is issued: " + lang::terminal_text(quote.title) + ", " +
                              lang::cents_text(quote.price_cents);
    return wrap(first, page_width) + "\nrecord " +
           wrap(lang::terminal_text(folder + "/" + added.file), page_width, 7) + "\nseal   " +
           added.record.seal + "\n";
}

} // namespace

bool write_pages(const QuoteArguments& arguments, const Pages& pages, Reply& reply) {
    return (arguments.page.empty() || save(arguments.page, pages.html, reply)) &&
           (arguments.text.empty() || save(arguments.text, pages.text, reply));
}

void issue_quote(const QuoteArguments& arguments, const QuoteDraft& draft, Reply& reply,
                 Console& console) {
    const lang::Outcome<std::string> key = read_key(arguments.key);
    if (!key) {
        reply.said.push_back(key.said);
        return;
    }
    const Book book(arguments.book);
    Pages pages;
    std::string doubt;
    const auto add = [&]() -> lang::Outcome<Added> {
        if (auto fault = book.create())
            return std::move(*fault);
        About about{{}, {}, arguments.date.substr(0, 4)};
        for (const std::string& number : {arguments.replaces, arguments.changes})
            if (!number.empty())
                about.quotes.emplace(base_number(number));
        return book.append(
            [&](const BookState& state) {
                doubt = other_firm(book, state, draft.quote().firm) +
                        other_customer(state, draft.quote());
                return next_quote(draft, state, pages);
            },
            *key, &about);
    };
    const lang::Outcome<Added> added = add();
    if (!added) {
        reply.said.push_back(not_issued(added.said));
        return;
    }
    const engine::QuoteRecord& quote = *added->record.quote();
    console.done = "quote " + quote.number + " is issued";
    if (added->fleeting)
        return reply.fail(may_be_lost(*added->fleeting, quote.number));
    reply.note = doubt + added->note;
    reply.page =
        arguments.job.json ? record_json(added->bytes) : issued_text(quote, *added, arguments.book);
    write_copies(arguments, pages, quote.number, reply);
}

} // namespace acre::cli
