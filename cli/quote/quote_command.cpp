// quote: the next number of the book, a sealed record, and the grower's page.
#include <cstdint>
#include <map>
#include <string>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/command.h"
#include "cli/field/report.h"
#include "cli/quote/page.h"
#include "cli/quote/wording.h"
#include "cli/shared/clock.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/legacy.h"
#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_book/quotes.h"
#include "engine/book/canonical.h"
#include "engine/book/record.h"
#include "engine/book/seal.h"
#include "engine/questions/estimate.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using Json = nlohmann::json;

struct QuoteArguments {
    JobArguments job;
    std::string book = "quote-book", wording, page, text, date, by, replaces, key;
    std::uint32_t valid_days = 30;
    bool draft = false;
};

int fail(Console& console, const std::string& what, int code) {
    console.err += "acrewright: " + what + "\n";
    return code;
}

// What the page can say besides the job's lines.
std::map<std::string, std::string> words_of(const Json& record) {
    const Json job = record.value("job", Json::object());
    return {{"quote.number", record.value("quote", std::string())},
            {"quote.date", record.value("issued", std::string())},
            {"quote.valid_until", record.value("valid_until", std::string())},
            {"quote.by", record.value("by", std::string())},
            {"quote.replaces", record.value("replaces", std::string())},
            {"job.title", job.value("title", std::string())},
            {"job.for", job.value("for", std::string())},
            {"job.option", job.value("option", std::string())}};
}

// The record as other programs read it: what the file says, in ASCII, as all JSON of the program
// is.
std::string record_json(const Json& record) {
    return record.dump(-1, ' ', true, Json::error_handler_t::replace) + "\n";
}

// A secret key is a file of one line: 128 hexadecimal digits.
bool read_key(const std::string& path, std::string& key, std::string& reason) {
    lang::Outcome<std::string> text = read_text(path, false);
    if (!text) {
        const lang::Diagnostic& why = text.said.diagnostics.all().front();
        reason = why.notes.empty() ? why.title : why.notes.front();
        return false;
    }
    key = std::move(*text);
    while (!key.empty() && (key.back() == '\n' || key.back() == '\r'))
        key.pop_back();
    reason = engine::sign("", key) ? "" : "it is no Ed25519 key of 128 hexadecimal digits";
    return reason.empty();
}

struct Pages {
    std::string html, text;
};

// Both forms of the page, or false with the reason in `console`.
bool make_pages(const QuoteArguments& arguments, const Json& record, Console& console, Pages& pages,
                int& code) {
    if (arguments.wording.empty())
        return true;
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    std::string text;
    if (!read_named_file(arguments.wording, text, diagnostics, max_wording_bytes)) {
        code = report(diagnostics, sources, console);
        return false;
    }
    const lang::FileId file = sources.add(arguments.wording, std::move(text));
    const std::optional<WordedPage> page =
        fill_in(sources, file, record, words_of(record), diagnostics);
    code = report(diagnostics, sources, console);
    if (!page || code != exit_done)
        return false;
    std::string pictures;
    for (const Json& picture : record.value("pictures", Json::array()))
        pictures += picture.value("svg", std::string());
    pages.html = quote_html(*page, record, pictures);
    pages.text = quote_page_text(*page, record);
    return true;
}

bool check_arguments(QuoteArguments& arguments, Console& console) {
    if (arguments.date.empty())
        arguments.date = today();
    if (!day_number(arguments.date)) {
        fail(console,
             "`--date` takes a day of the calendar, as in 2027-03-14; not `" +
                 lang::terminal_text(arguments.date) + "`",
             exit_usage);
        return false;
    }
    if (arguments.wording.empty() && (!arguments.page.empty() || !arguments.text.empty())) {
        fail(console, "a page needs the firm's words: `--wording FILE`", exit_usage);
        return false;
    }
    return true;
}

int write_pages(const QuoteArguments& arguments, const Pages& pages, Console& console) {
    for (const auto& [path, text] :
         {std::pair{&arguments.page, &pages.html}, std::pair{&arguments.text, &pages.text}})
        if (!path->empty() && !save(*path, *text, console))
            return exit_file;
    return exit_done;
}

} // namespace

int quote_command(Words words, Console& console) {
    QuoteArguments arguments;
    Arguments line("quote",
                   "Prices a job, gives it the next number of the quote book, seals all it was "
                   "made from into a record, and writes the "
                   "grower's page.",
                   "acrewright quote examples/01-first-price.job --draft --date 2027-03-14 "
                   "--wording examples/quote.wording");
    arguments.job.declare(line);
    line.option("--book", "FOLDER", "the quote book; made if it is not there (quote-book)",
                arguments.book);
    line.option("--wording", "FILE", "the firm's words for the page", arguments.wording);
    line.option("--page", "FILE", "where the page goes, as HTML that prints on letter paper",
                arguments.page);
    line.option("--text", "FILE", "where the page goes, as plain text", arguments.text);
    line.option("--date", "DATE", "the day of the quote (today)", arguments.date);
    line.option("--valid", "DAYS", "how long it stands (30)", arguments.valid_days);
    line.option("--by", "NAME", "who made it", arguments.by);
    line.option("--replaces", "NUMBER", "the quote that this one takes the place of",
                arguments.replaces);
    line.option("--key", "FILE", "an Ed25519 key to sign the record with", arguments.key);
    line.flag("--draft", "shows the page and writes nothing", arguments.draft);
    if (const auto code = line.read(words, console))
        return *code;
    if (!check_arguments(arguments, console))
        return exit_usage;
    int code = exit_done;
    const auto job = open_job(arguments.job, console, code);
    if (!job)
        return code;
    const lang::Outcome<engine::Estimate> estimate = engine::estimate(*job);
    code = report(estimate.said, console);
    if (!estimate || code != exit_done)
        return code;

    Json body = engine::record_of(*job, *estimate, ACREWRIGHT_VERSION);
    body["kind"] = "quote";
    for (const engine::JobField& field : job->fields())
        body["pictures"].push_back(
            {{"block", field.block}, {"svg", field_svg(engine::field_answer(field.field))}});
    body["issued"] = arguments.date;
    body["valid_until"] = date_text(*day_number(arguments.date) + arguments.valid_days);
    body["by"] = arguments.by;
    body["replaces"] = arguments.replaces;
    std::string key;
    std::string reason;
    if (!arguments.key.empty() && !read_key(arguments.key, key, reason))
        return fail(console, "the key `" + lang::terminal_text(arguments.key) + "`: " + reason,
                    exit_file);

    // The page is made once before anything is written: a wording that cannot be filled in issues
    // no number.
    body["quote"] = "draft";
    Pages pages;
    if (!make_pages(arguments, body, console, pages, code))
        return code;
    if (arguments.draft) {
        console.out += pages.text.empty() ? record_json(body) : pages.text;
        return write_pages(arguments, pages, console);
    }

    const Book book(arguments.book);
    reason = book.create();
    if (reason.empty() && !arguments.replaces.empty()) {
        std::vector<Quote> quotes;
        if (!read_quotes(book, quotes, reason))
            return fail(console,
                        "the book `" + lang::terminal_text(arguments.book) + "`: " + reason,
                        exit_file);
        if (find_quote(quotes, arguments.replaces) == nullptr)
            return fail(console,
                        "the book has no quote `" + lang::terminal_text(arguments.replaces) +
                            "` to replace",
                        exit_usage);
    }
    BookEntry added;
    if (reason.empty())
        reason = book.append(
            [&](const Json* newest, std::uint64_t) {
                Json counter;
                body["quote"] = next_number(newest, arguments.date, counter);
                body["counter"] = std::move(counter);
                return body;
            },
            added, key);
    const std::string number = body["quote"].get<std::string>();
    if (!reason.empty()) {
        const std::string what =
            added.bytes.empty() ? "no quote was issued"
                                : "quote " + number + " is issued but may not outlive a power cut";
        return fail(console,
                    what + ": the book `" + lang::terminal_text(arguments.book) + "`: " + reason,
                    exit_file);
    }
    console.done = "quote " + number + " is issued";
    console.out += arguments.job.json
                       ? record_json(*engine::read_canonical(added.bytes))
                       : fmt::format("quote {}  {}  {}\nrecord {}/{}\nsealed {}\n", number,
                                     lang::terminal_text(job->sheet().job.title),
                                     lang::cents_text(estimate->price_cents),
                                     lang::terminal_text(arguments.book),
                                     Book::file_name(added.index), added.seal);
    if (!make_pages(arguments, body, console, pages, code))
        return code;
    return write_pages(arguments, pages, console);
}

} // namespace acre::cli
