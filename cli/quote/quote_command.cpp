// quote: the next number of the book, a sealed record, and the grower's page.
#include <cstdint>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/command.h"
#include "cli/field/report.h"
#include "cli/quote/acceptance.h"
#include "cli/quote/pages.h"
#include "cli/quote/quote_json.h"
#include "cli/shared/clock.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/job.h"
#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_book/quotes.h"
#include "cli/shared/text/wrap.h"
#include "engine/book/canonical.h"
#include "engine/book/seal.h"
#include "engine/questions/block_prices.h"
#include "engine/questions/estimate.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using Json = nlohmann::json;

struct QuoteArguments {
    JobArguments job;
    std::string book = "quote-book", wording, page, text, date, by, replaces, key;
    std::vector<std::string> accepted;
    std::uint32_t valid_days = 30;
    bool draft = false, by_block = false;
};

// A secret key is a file of one line: 128 hexadecimal digits.
lang::Outcome<std::string> read_key(const std::string& path) {
    if (path.empty())
        return std::string();
    lang::Outcome<std::string> key = read_text(path, false);
    if (!key)
        return key;
    while (!key->empty() && (key->back() == '\n' || key->back() == '\r'))
        key->pop_back();
    if (!engine::sign("", *key))
        return lang::placeless(lang::Code::F706, "`" + path + "` is not an Ed25519 key", {},
                               {"a key is one line of 128 hexadecimal digits"});
    return key;
}

std::optional<lang::Diagnostic> fault_of(const QuoteArguments& arguments) {
    if (!lang::day_number(arguments.date))
        return lang::placeless(lang::Code::C003, "`--date` takes a date, as in 2027-03-14; not `" +
                                                     arguments.date + "`");
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
    if (arguments.wording.empty() && (!arguments.page.empty() || !arguments.text.empty()))
        return lang::placeless(lang::Code::C004, "a page needs the firm's wording", {},
                               {"name its file with `--wording FILE`"});
    return std::nullopt;
}

void declare(QuoteArguments& arguments, Arguments& line) {
    arguments.job.declare(line);
    line.option("--book", "FOLDER", "the quote book; created if missing (quote-book)",
                arguments.book);
    line.option("--wording", "FILE", "the firm's wording for the page", arguments.wording);
    line.option("--page", "FILE", "writes the page as HTML that prints on letter paper",
                arguments.page);
    line.option("--text", "FILE", "writes the page as plain text", arguments.text);
    line.option("--date", "DATE", "the date of the quote (today)", arguments.date);
    line.option("--valid", "DAYS", "how many days it is valid (30)", arguments.valid_days);
    line.option("--by", "NAME", "who made it", arguments.by);
    line.option("--replaces", "NUMBER", "the quote that this one replaces", arguments.replaces);
    line.option("--accept", "CODE", "issues the quote with this warning, which the record keeps",
                arguments.accepted);
    line.option("--key", "FILE", "signs the record with this Ed25519 key", arguments.key);
    line.flag("--by-block", "the page also shows acres, depth, soil and price of each block",
              arguments.by_block);
    line.flag("--draft", "shows the page and writes nothing", arguments.draft);
}

Json draft_of(const QuoteArguments& arguments, const engine::PricedJob& job,
              const engine::Estimate& estimate) {
    engine::QuoteTerms terms;
    terms.issued = arguments.date;
    terms.valid_until = *lang::date_after(arguments.date, arguments.valid_days);
    terms.by = arguments.by;
    terms.replaces = arguments.replaces;
    terms.accepted = arguments.accepted;
    for (const engine::JobField& field : job.fields())
        terms.pictures.push_back({field.entry, field_svg(engine::field_answer(field.field))});
    if (arguments.by_block)
        for (const engine::BlockPrice& block : engine::block_prices(job, estimate).blocks)
            terms.blocks.push_back(
                {block.label, block.acres.text, block.depth.text, block.soil.text, block.cents});
    return engine::draft_record(job, estimate, terms, ACREWRIGHT_VERSION);
}

bool write_pages(const QuoteArguments& arguments, const Pages& pages, Reply& reply) {
    return (arguments.page.empty() || save(arguments.page, pages.html, reply)) &&
           (arguments.text.empty() || save(arguments.text, pages.text, reply));
}

// Gives the draft its number and adds it to the book.
lang::Outcome<Added> add_to_book(const QuoteArguments& arguments, const std::string& key,
                                 Json& draft) {
    const Book book(arguments.book);
    if (auto fault = book.create())
        return std::move(*fault);
    if (!arguments.replaces.empty())
        if (lang::Outcome<engine::Quote> replaced = read_quote(book, arguments.replaces); !replaced)
            return std::move(replaced.said);
    return book.append(
        [&](const Json* newest) -> lang::Outcome<Json> {
            engine::give_number(draft, newest);
            return draft;
        },
        key);
}

// The same failure, told as what it means for the quote.
lang::Said not_issued(const lang::Said& said) {
    lang::Said told;
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

// The page of a quote that is issued. What goes wrong now takes nothing back, and says so.
void add_pages(const QuoteArguments& arguments, const engine::QuoteRecord& record, Reply& reply) {
    const lang::Outcome<Pages> pages = make_pages(arguments.wording, record);
    Reply told(pages.said);
    if (pages)
        write_pages(arguments, *pages, told);
    for (const lang::Said& said : told.said) {
        lang::Said& kept = reply.said.emplace_back();
        kept.sources = said.sources;
        for (lang::Diagnostic fault : said.diagnostics.all()) {
            fault.notes.push_back("quote " + record.number + " was issued anyway");
            kept.diagnostics.add(std::move(fault));
        }
    }
}

std::string issued_text(const engine::QuoteRecord& record, const Added& added,
                        const std::string& folder) {
    const std::string first = "Quote " + record.number +
                              " is issued: " + lang::terminal_text(record.title) + ", " +
                              lang::cents_text(record.price_cents);
    return wrap(first, page_width) + "\nrecord " +
           wrap(lang::terminal_text(folder + "/" + added.entry.file()), page_width, 7) +
           "\nseal   " + added.seal + "\n";
}

void issue(const QuoteArguments& arguments, Json draft, Reply& reply, Console& console) {
    const lang::Outcome<std::string> key = read_key(arguments.key);
    if (!key) {
        reply.said.push_back(key.said);
        return;
    }
    const lang::Outcome<Added> added = add_to_book(arguments, *key, draft);
    if (!added) {
        reply.said.push_back(not_issued(added.said));
        return;
    }
    const engine::QuoteRecord record = engine::quote_record(draft);
    console.done = "quote " + record.number + " is issued";
    if (added->fleeting)
        return reply.fail(may_be_lost(*added->fleeting, record.number));
    reply.note = added->note;
    reply.page = arguments.job.json ? record_json(*engine::read_canonical(added->entry.bytes))
                                    : issued_text(record, *added, arguments.book);
    add_pages(arguments, record, reply);
}

Reply quote(const QuoteArguments& arguments, Console& console) {
    const lang::Outcome<engine::Job> job = open_job(arguments.job);
    if (!job)
        return of_the_price(job.said);
    const lang::Outcome<engine::Estimate> estimate = engine::estimate(**job);
    Reply reply(of_the_price(estimate.said));
    if (!estimate || reply.failed())
        return reply;
    // Of a draft too: its page can be handed over as well as any other.
    if (auto fault = not_accepted(of_the_price(estimate.said), arguments.accepted)) {
        reply.fail(std::move(*fault));
        return reply;
    }
    // The page is made once before anything is written: a wording that cannot be filled in issues
    // no number.
    Json draft = draft_of(arguments, **job, *estimate);
    const lang::Outcome<Pages> pages = make_pages(arguments.wording, engine::quote_record(draft));
    if (!pages) {
        reply.said.push_back(pages.said);
        return reply;
    }
    if (!arguments.draft) {
        issue(arguments, std::move(draft), reply, console);
        return reply;
    }
    reply.page = arguments.job.json || pages->text.empty() ? record_json(draft) : pages->text;
    write_pages(arguments, *pages, reply);
    return reply;
}

} // namespace

Reply quote_command(Words words, Console& console) {
    QuoteArguments arguments;
    Arguments line("quote",
                   "Prices a job, gives it the next number of the quote book, seals everything it "
                   "was made from in a record, and writes the page for the grower.",
                   "acrewright quote examples/01-first-price.job --draft --date 2027-03-14 "
                   "--wording examples/quote.wording");
    declare(arguments, line);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (arguments.date.empty())
        arguments.date = today();
    if (auto fault = fault_of(arguments))
        return std::move(*fault);
    return quote(arguments, console);
}

} // namespace acre::cli
