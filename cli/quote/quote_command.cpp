// quote: the next number of the book, a sealed record, and the customer's page; or the page of a
// quote that was issued.
#include <string>

#include <fmt/format.h>

#include "cli/command.h"
#include "cli/quote/quote.h"
#include "cli/shared/clock.h"
#include "engine/book/lives.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::optional<lang::Diagnostic> fault_of(const QuoteArguments& arguments) {
    if (!lang::day_number(arguments.date))
        return lang::placeless(lang::Code::C003, "`--date` takes a date, as in 2027-03-14; not `" +
                                                     arguments.date + "`");
    if (lang::terminal_text(arguments.by) != arguments.by)
        return lang::placeless(lang::Code::C003,
                               "`--by` takes a name on one line, of letters that can be read");
    if (arguments.valid_days == 0)
        return lang::placeless(lang::Code::C003, "`--valid 0`: a quote is valid for a day at least",
                               {}, {"`--valid 30` is the usual"});
    if (!lang::date_after(arguments.date, arguments.valid_days))
        return lang::placeless(
            lang::Code::C003,
            fmt::format("a quote of {} cannot be valid for {} days: that is past the year {}",
                        lang::day_text(arguments.date),
                        lang::number_text(static_cast<double>(arguments.valid_days)),
                        lang::last_year),
            {}, {"`--valid 30` is the usual"});
    if (!arguments.replaces.empty() && !arguments.changes.empty())
        return lang::placeless(lang::Code::C004, "`--replaces` and `--changes` do not go together",
                               {"a quote replaces an offer, or changes what was accepted"});
    return std::nullopt;
}

void declare(QuoteArguments& arguments, Arguments& line) {
    arguments.job.declare(line);
    line.option("--book", "FOLDER", "the quote book; created if missing (quote-book)",
                arguments.book);
    line.option("--wording", "FILE", "the firm's wording for the page; else a built-in one",
                arguments.wording);
    line.option("--page", "FILE", "writes the page as HTML that prints on letter paper",
                arguments.page);
    line.option("--text", "FILE", "writes the page as plain text", arguments.text);
    line.option("--date", "DATE", "the date of the quote (today)", arguments.date);
    line.option("--valid", "DAYS", "how many days it is valid (30)", arguments.valid_days);
    line.option("--by", "NAME", "who made it (what the firm's file says)", arguments.by);
    line.option("--also", "OPTION", "offers this option of the job too, at its own price",
                arguments.also);
    line.option("--replaces", "NUMBER", "the offer that this quote replaces", arguments.replaces);
    line.option("--changes", "NUMBER", "the accepted quote that this change order changes",
                arguments.changes);
    line.option("--accept", "CODE", "issues the quote with this warning, which the record keeps",
                arguments.accepted);
    line.option("--key", "FILE", "signs the record with this secret key", arguments.key);
    line.flag("--by-block", "the page also shows acres, depth, soil and price of each block",
              arguments.by_block);
    line.flag("--draft", "shows the page and writes nothing", arguments.draft);
}

Reply quote(const QuoteArguments& arguments, Console& console) {
    Reply reply;
    const std::optional<QuoteDraft> draft = draft_quote(arguments, reply);
    if (!draft)
        return reply;
    // The page is made once before anything is written: a wording that cannot be filled in issues
    // no number.
    const lang::Outcome<Pages> pages = make_pages(draft->wording, draft->quote());
    if (!pages) {
        reply.said.push_back(pages.said);
        return reply;
    }
    if (!arguments.draft) {
        issue_quote(arguments, *draft, reply, console);
        return reply;
    }
    reply.page = arguments.job.json ? engine::draft_json(draft->record) : pages->text;
    write_pages(arguments, *pages, reply);
    return reply;
}

} // namespace

Reply quote_command(Words words, Console& console) {
    QuoteArguments arguments;
    Arguments line("quote",
                   "Prices a job, gives it the next number of the quote book, seals everything it "
                   "was made from in a record, with the page for the customer. With the number of "
                   "a quote in place of JOB it prints the page as it was issued.",
                   "acrewright quote examples/01-first-price.job --draft --date 2027-03-14 "
                   "--wording examples/quote.wording");
    declare(arguments, line);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (engine::is_quote_number(arguments.job.path))
        return reprint_quote(arguments);
    if (arguments.date.empty())
        arguments.date = today();
    if (auto fault = fault_of(arguments))
        return std::move(*fault);
    return quote(arguments, console);
}

} // namespace acre::cli
