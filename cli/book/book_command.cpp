// book: the quotes of a book and what happened to them; as CSV for a spreadsheet; and which open
// ones would lose money today.
#include <string>

#include "cli/book/book_page.h"
#include "cli/command.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/job.h"
#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_book/quotes.h"

namespace acre::cli {
namespace {

struct BookArguments {
    std::string folder = "quote-book", season;
    bool quotes_csv = false, costs_csv = false, json = false;
};

lang::Outcome<BookPage> open_book(const BookArguments& arguments) {
    lang::Outcome<std::vector<engine::Quote>> quotes = read_quotes(Book(arguments.folder));
    if (!quotes)
        return std::move(quotes.said);
    BookPage page{std::move(*quotes), std::nullopt};
    if (arguments.season.empty())
        return page;
    lang::Outcome<std::string> text = read_named_file(arguments.season);
    if (!text)
        return std::move(text.said);
    const engine::SeasonText season{arguments.season, std::move(*text)};
    FileLoader beside;
    page.open_today.emplace();
    for (const engine::Quote& quote : page.quotes)
        if (quote.is_open())
            page.open_today->push_back(engine::reprice(quote, season, beside));
    return page;
}

} // namespace

Reply book_command(Words words, Console& console) {
    BookArguments arguments;
    Arguments line("book",
                   "Lists the quotes of a book and what happened to them. With --season it prices "
                   "the open ones with today's season and shows which of them would lose money.",
                   "acrewright book examples/quote-book");
    line.positional("BOOK", "the folder (quote-book)", arguments.folder, false);
    line.option("--season", "FILE", "today's season", arguments.season);
    line.flag("--csv", "the quotes as CSV, for a spreadsheet", arguments.quotes_csv);
    line.flag("--cost-csv", "every cost of every quote as CSV", arguments.costs_csv);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    const lang::Outcome<BookPage> page = open_book(arguments);
    if (!page)
        return page.said;
    Reply reply;
    if (arguments.json)
        reply.document = book_json(*page);
    else if (arguments.quotes_csv)
        reply.page = quotes_csv(page->quotes);
    else if (arguments.costs_csv)
        reply.page = costs_csv(page->quotes);
    else
        reply.page = book_text(*page, console.color_out);
    return reply;
}

} // namespace acre::cli
