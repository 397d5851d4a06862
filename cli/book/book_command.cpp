// book: the quotes of a book and what happened to them; for a spreadsheet and for book-keeping; and
// which open ones would lose money today.
#include <string>

#include "cli/book/book_page.h"
#include "cli/command.h"
#include "cli/shared/clock.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/job.h"
#include "cli/shared/quote_book/book.h"
#include "lang/kept_trees.h"
#include "lang/units/calendar.h"

namespace acre::cli {
namespace {

struct BookArguments {
    std::string folder = "quote-book", season, day;
    bool bills = false, events_csv = false, costs_csv = false, journal = false, json = false;
};

// The open quotes, priced with that season.
std::optional<lang::Said> reprice_open(const BookArguments& arguments, const Book& book,
                                       BookPage& page) {
    lang::Outcome<std::string> text = read_named_file(arguments.season);
    if (!text)
        return std::move(text.said);
    const engine::SeasonText season{arguments.season, std::move(*text)};
    lang::KeptTrees trees;
    FileLoader beside;
    beside.share(trees);
    page.open_today.emplace();
    for (const engine::Life* life : page.lives.all()) {
        if (life->quote.date > page.day || !page.lives.standing(*life, page.day).is_open())
            continue;
        const lang::Outcome<engine::Record> record =
            book.record(static_cast<std::uint64_t>(life->quote.record));
        if (!record)
            return record.said;
        page.open_today->push_back(engine::reprice(*record->quote(), season, beside));
    }
    return std::nullopt;
}

lang::Outcome<std::string> all_costs(const Book& book, const BookPage& page) {
    std::string out = costs_heading();
    for (const engine::Life* life : page.lives.all()) {
        if (life->quote.date > page.day)
            continue;
        const lang::Outcome<engine::Record> record =
            book.record(static_cast<std::uint64_t>(life->quote.record));
        if (!record)
            return record.said;
        out += costs_csv(*record->quote());
    }
    return out;
}

// The records of the bills up to the day.
std::optional<lang::Said> read_bills(const Book& book, BookPage& page) {
    for (const engine::Event& event : page.lives.events()) {
        if (event.kind != "bill" || event.date > page.day)
            continue;
        const lang::Outcome<engine::Record> record =
            book.record(static_cast<std::uint64_t>(event.record));
        if (!record)
            return record.said;
        if (record->bill() != nullptr)
            page.bills.push_back(*record->bill());
    }
    return std::nullopt;
}

Reply show(const BookArguments& arguments, bool on_today, bool color) {
    const Book book(arguments.folder);
    lang::Outcome<BookState> state = book.state();
    if (!state)
        return std::move(state.said);
    BookPage page{std::move(state->lives), arguments.day, {}, std::nullopt};
    if (arguments.bills || arguments.journal || arguments.json)
        if (auto failure = read_bills(book, page))
            return std::move(*failure);
    if (!arguments.season.empty())
        if (auto failure = reprice_open(arguments, book, page))
            return std::move(*failure);
    Reply reply;
    reply.note = remarks_on(book.strays(), page, on_today);
    if (arguments.json) {
        reply.document = book_json(page);
    } else if (arguments.bills) {
        reply.page = arguments.events_csv ? bills_csv(page) : bills_text(page, color);
    } else if (arguments.events_csv) {
        reply.page = entries_csv(page);
    } else if (arguments.journal) {
        reply.page = journal_text(page);
    } else if (arguments.costs_csv) {
        lang::Outcome<std::string> costs = all_costs(book, page);
        if (!costs)
            return std::move(costs.said);
        reply.page = std::move(*costs);
    } else {
        reply.page = book_text(page, color);
    }
    return reply;
}

} // namespace

Reply book_command(Words words, Console& console) {
    BookArguments arguments;
    Arguments line("book",
                   "Lists the quotes of a book and what happened to them. With --season it prices "
                   "the open ones with today's season and shows which of them would lose money.",
                   "acrewright book examples/quote-book --as-of 2027-08-10");
    line.positional("BOOK", "the folder (quote-book)", arguments.folder, false);
    line.option("--as-of", "DATE", "the book as it was on that day (today)", arguments.day);
    line.option("--season", "FILE", "today's season", arguments.season);
    line.flag("--bills",
              "the bills, and what of accepted work is billed; with --csv every line of them",
              arguments.bills);
    line.flag("--csv", "every event and its amounts as CSV, for a spreadsheet",
              arguments.events_csv);
    line.flag("--journal", "accepted work as a journal, for book-keeping", arguments.journal);
    line.flag("--cost-csv", "every cost of every quote as CSV", arguments.costs_csv);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    const bool on_today = arguments.day.empty();
    if (on_today)
        arguments.day = today();
    if (!lang::day_number(arguments.day))
        return lang::placeless(lang::Code::C003, "`--as-of` takes a date, as in 2027-03-14; not `" +
                                                     arguments.day + "`");
    return show(arguments, on_today, console.color_out);
}

} // namespace acre::cli
