// mark: what happened to a quote, as a record of its own.
#include <algorithm>
#include <string>

#include <nlohmann/json.hpp>

#include "cli/command.h"
#include "cli/shared/arguments.h"
#include "cli/shared/clock.h"
#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_book/quotes.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"

namespace acre::cli {
namespace {

using Json = nlohmann::json;

std::optional<lang::Diagnostic> fault_of(const engine::QuoteWord& word) {
    if (!lang::day_number(word.date))
        return lang::placeless(lang::Code::C003,
                               "`--date` takes a date, as in 2027-03-14; not `" + word.date + "`");
    const auto& states = engine::quote_states;
    if (std::find(states.begin() + 1, states.end(), word.state) == states.end())
        return lang::placeless(
            lang::Code::C003, "a quote cannot be marked `" + word.state + "`", {},
            {"the marks are accepted, \"turned down\", withdrawn, lapsed and closed"});
    return std::nullopt;
}

Reply mark(const std::string& folder, const engine::QuoteWord& word, Console& console) {
    const Book book(folder);
    // Judged inside append, on the book as it is when the record goes in: two people marking at
    // once cannot both be right.
    const lang::Outcome<Added> added = book.append([&](const Json* newest) -> lang::Outcome<Json> {
        const lang::Outcome<std::vector<engine::Quote>> quotes = read_quotes(book);
        if (!quotes)
            return quotes.said;
        return engine::word_record(*quotes, word, newest != nullptr ? *newest : Json());
    });
    Reply reply;
    if (!added) {
        for (lang::Diagnostic fault : added.said.diagnostics.all()) {
            if (fault.code == lang::Code::R001 || fault.code == lang::Code::R003)
                fault.title.insert(0, "nothing was written: ");
            reply.fail(std::move(fault));
        }
        return reply;
    }
    console.done = "quote " + lang::terminal_text(word.quote) + " is " + word.state + ", " +
                   lang::day_text(word.date);
    if (added->fleeting) {
        lang::Diagnostic fault = *added->fleeting;
        fault.title = "quote " + word.quote + " is marked " + word.state +
                      ", but the mark may be lost in a power cut: " + fault.title;
        reply.fail(std::move(fault));
        return reply;
    }
    reply.note = added->note;
    reply.page = "Quote" + console.done.substr(5) + "\nrecord " +
                 wrap(lang::terminal_text(folder + "/" + added->entry.file()), page_width, 7) +
                 "\n";
    return reply;
}

} // namespace

Reply mark_command(Words words, Console& console) {
    std::string folder = "quote-book";
    engine::QuoteWord word;
    Arguments line(
        "mark",
        "Records what happened to a quote: accepted, turned down, withdrawn, lapsed or closed. "
        "The quote itself never changes.",
        "acrewright mark 2027-001 accepted --book examples/quote-book --date 2027-03-20 --help");
    line.positional("NUMBER", "the quote's number", word.quote);
    line.positional("STATE", "accepted, \"turned down\", withdrawn, lapsed or closed", word.state);
    line.option("--book", "FOLDER", "the quote book (quote-book)", folder);
    line.option("--date", "DATE", "when it happened (today)", word.date);
    line.option("--note", "TEXT", "a remark", word.note);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (word.date.empty())
        word.date = today();
    if (auto fault = fault_of(word))
        return std::move(*fault);
    return mark(folder, word, console);
}

} // namespace acre::cli
