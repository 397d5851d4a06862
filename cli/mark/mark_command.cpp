// mark: a later word on a quote, as a record of its own.
#include <string>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/command.h"
#include "cli/exit_codes.h"
#include "cli/shared/arguments.h"
#include "cli/shared/clock.h"
#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_book/quotes.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

using Json = nlohmann::json;

int mark_command(Words words, Console& console) {
    std::string folder = "quote-book";
    std::string number;
    std::string state;
    std::string date;
    std::string note;
    Arguments line(
        "mark",
        "Writes down what became of a quote: accepted, turned down, withdrawn, lapsed or closed. "
        "The quote itself is never changed.",
        "acrewright mark 2027-001 accepted --book examples/quote-book --date 2027-03-20 --help");
    line.positional("NUMBER", "of the quote", number);
    line.positional("STATE", "accepted, \"turned down\", withdrawn, lapsed or closed", state);
    line.option("--book", "FOLDER", "the quote book (quote-book)", folder);
    line.option("--date", "DATE", "the day of it (today)", date);
    line.option("--note", "TEXT", "a remark", note);
    if (const auto code = line.read(words, console))
        return *code;
    const auto fail = [&](const std::string& what, int code) {
        console.err += "acrewright: " + what + "\n";
        return code;
    };
    if (date.empty())
        date = today();
    if (!day_number(date))
        return fail("`--date` takes a day of the calendar, as in 2027-03-14", exit_usage);
    const Book book(folder);
    // Judged inside append, on the book as it is when the record goes in: two people marking at
    // once cannot both be right.
    std::string refused;
    BookEntry added;
    const std::string reason = book.append(
        [&](const Json* newest, std::uint64_t) {
            std::vector<Quote> quotes;
            std::string unread;
            refused.clear();
            const Quote* quote =
                read_quotes(book, quotes, unread) ? find_quote(quotes, number) : nullptr;
            if (!unread.empty())
                refused = unread;
            else if (quote == nullptr)
                refused = "the book has no quote `" + lang::terminal_text(number) + "`";
            else if (!may_become(quote->state, state))
                refused = lang::terminal_text(fmt::format("quote {} is {}; it cannot become `{}`",
                                                          number, quote->state, state));
            if (!refused.empty())
                return Json();
            return Json{{"kind", "word"}, {"quote", number},
                        {"state", state}, {"date", date},
                        {"note", note},   {"counter", newest->value("counter", Json::object())}};
        },
        added);
    if (!refused.empty())
        return fail(refused, exit_usage);
    const std::string what =
        lang::terminal_text(fmt::format("quote {} is {}, {}", number, state, date));
    if (!reason.empty())
        return fail((added.bytes.empty() ? "nothing was written"
                                         : what + ", but this may not outlive a power cut") +
                        ": the book `" + lang::terminal_text(folder) + "`: " + reason,
                    exit_file);
    console.done = what;
    console.out += fmt::format("{}\nrecord {}/{}\n", what, lang::terminal_text(folder),
                               Book::file_name(added.index));
    return exit_done;
}

} // namespace acre::cli
