// bill: what accepted work comes to by the quote's own terms, sealed into the book with its log.
#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "cli/bill/bill_arguments.h"
#include "cli/bill/bill_page.h"
#include "cli/command.h"
#include "cli/shared/arguments.h"
#include "cli/shared/clock.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/job.h"
#include "cli/shared/quote_book/bill_rows.h"
#include "cli/shared/quote_book/key_file.h"
#include "cli/shared/text/wrap.h"
#include "engine/book/canonical.h"
#include "engine/book/seal.h"
#include "engine/log/log_cells.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

void declare(BillArguments& arguments, Arguments& line) {
    line.positional("NUMBER", "the quote's number, or that of a bill", arguments.number);
    line.positional("LOG", "the daily log of the job, as CSV (the one sealed with the quote)",
                    arguments.log, false);
    line.option("--book", "FOLDER", "the quote book (quote-book)", arguments.book);
    line.option("--posted", "FILE", "posted fuel prices as CSV: week, product, price, source",
                arguments.posted);
    line.option("--product", "NAME", "which of their products the quote goes by (the only one)",
                arguments.product);
    line.option("--deposit", "MONEY",
                "a deposit to take off; may be given again; below zero puts one back",
                arguments.deposits);
    line.option("--cause", "WORD=CLAUSE",
                "what a cause of the log means: not_ready, lines, weather or repairs",
                arguments.causes);
    line.option("--date", "DATE", "the date of the bill (today)", arguments.date);
    line.option("--note", "TEXT", "a remark on the page", arguments.note);
    line.option("--page", "FILE", "writes the page as HTML that prints on letter paper",
                arguments.page);
    line.option("--text", "FILE", "writes the page as plain text", arguments.text);
    line.option("--key", "FILE", "signs the record with this secret key", arguments.key);
    line.flag("--draft", "shows the bill and writes nothing into the book", arguments.draft);
    line.flag("--csv", "one row a line, for the firm's accounting", arguments.csv);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
}

lang::Diagnostic wrong(std::string title, std::vector<std::string> helps = {}) {
    return lang::placeless(lang::Code::C003, std::move(title), {}, std::move(helps));
}

// What the words of the command line say, read once.
struct Asked {
    std::map<std::string, std::string> causes;
    std::optional<engine::PostedPrices> posted;
    std::string posted_text, key;
};

std::optional<lang::Said> said_of(lang::Diagnostic fault) {
    lang::Said said;
    said.diagnostics.add(std::move(fault));
    return said;
}

std::optional<lang::Said> read_asked(const BillArguments& arguments, Asked& asked) {
    if (!lang::day_number(arguments.date))
        return said_of(
            wrong("`--date` takes a date, as in 2027-03-14; not `" + arguments.date + "`"));
    if (arguments.csv && arguments.json)
        return said_of(
            lang::placeless(lang::Code::C004, "`--csv` and `--json` do not go together"));
    for (const std::string& text : arguments.causes) {
        const std::size_t at = text.find('=');
        const std::string clause = at == text.npos ? "" : text.substr(at + 1);
        if (at == 0 || (clause != "not_ready" && clause != "lines" && clause != "weather" &&
                        clause != "repairs"))
            return said_of(
                wrong("`--cause` takes a word of the log and its clause; not `" + text + "`",
                      {"write  --cause \"pump=not_ready\"; the clauses are not_ready, "
                       "lines, weather and repairs"}));
        asked.causes[engine::plain_word(text.substr(0, at))] = clause;
    }
    if (!arguments.posted.empty()) {
        lang::Outcome<std::string> text = read_named_file(arguments.posted, max_data_bytes);
        if (!text)
            return std::move(text.said);
        asked.posted_text = *text;
        lang::Outcome<engine::PostedPrices> prices =
            engine::read_posted(arguments.posted, std::move(*text));
        if (!prices)
            return std::move(prices.said);
        asked.posted = std::move(*prices);
    }
    lang::Outcome<std::string> key = read_key(arguments.key);
    if (!key)
        return std::move(key.said);
    asked.key = std::move(*key);
    return std::nullopt;
}

// "2027-B003": the year of its date and a count of that year's bills.
std::string next_number(const BookState& state, const std::string& date) {
    const std::string year = date.substr(0, 4) + "-B";
    int newest = 0;
    for (const engine::Event& event : state.lives.events())
        if (event.kind == "bill" && event.bill.starts_with(year)) {
            int count = 0;
            for (const char c : event.bill.substr(year.size()))
                count = c >= '0' && c <= '9' && count < 1'000'000 ? count * 10 + (c - '0') : count;
            newest = std::max(newest, count);
        }
    return fmt::format("{}{:03}", year, newest + 1);
}

struct MadeBill {
    BillPage page;
    std::string log_text;
    lang::Said doubts; // of the log
};

// In the money of the quote, whose sign it may have; nothing: it cannot be paid.
std::optional<std::int64_t> deposit_in(const std::string& text, std::int64_t step) {
    constexpr double most = 1e12;
    const auto amount = engine::figure_in(text, false);
    if (!amount || std::abs(*amount) > most)
        return std::nullopt;
    const std::int64_t cents = std::llround(*amount * 100);
    const bool whole = std::abs(*amount * 100 - static_cast<double>(cents)) < 1e-3;
    return cents != 0 && whole && cents % step == 0 ? std::optional(cents) : std::nullopt;
}

lang::Diagnostic no_deposit(const std::string& text, std::int64_t step) {
    return wrong(fmt::format("`--deposit` takes an amount in whole steps of {}, as in '{}'; not "
                             "`{}`",
                             lang::cents_text(step), lang::cents_text(500'000), text),
                 {fmt::format("below zero, as in '{}', it puts back what an earlier bill took off "
                              "too much",
                              lang::cents_text(-50'000))});
}

// The bill as the book stands: the log and everything that it is held against are read anew, for
// somebody else may have written meanwhile.
lang::Outcome<MadeBill> make_bill(const BillArguments& arguments, const Asked& asked,
                                  const Book& book, const BookState& state) {
    lang::Outcome<Work> work = work_of(book, state, arguments.number);
    if (!work)
        return std::move(work.said);
    lang::Outcome<WorkLog> log = log_of(book, state, *work, arguments.log);
    if (!log)
        return std::move(log.said);
    engine::BillQuestion question;
    question.quote = &work->quote;
    question.log = &log->log;
    question.posted = asked.posted ? &*asked.posted : nullptr;
    question.product = engine::plain_word(arguments.product);
    question.causes = asked.causes;
    for (const std::string& text : arguments.deposits) {
        const std::optional<std::int64_t> cents = deposit_in(text, work->quote.money.step);
        if (!cents)
            return no_deposit(text, work->quote.money.step);
        question.deposits.push_back(*cents);
    }
    question.before = engine::billed_before(state.lives, work->contract.life->quote.quote);
    question.date = arguments.date;
    question.accepted = work->contract.steps.back().accepted;
    question.finished = work->contract.standing.state == "finished";
    lang::Outcome<engine::BillAnswer> answer = engine::ask(question);
    if (!answer)
        return std::move(answer.said);
    MadeBill made;
    made.doubts = std::move(log.said);
    for (const lang::Diagnostic& doubt : answer.said.diagnostics.all())
        made.doubts.diagnostics.add(doubt);
    made.log_text = std::move(log->text);
    made.page = {arguments.draft ? "" : next_number(state, arguments.date),
                 arguments.date,
                 arguments.note,
                 std::move(*work),
                 std::move(*answer),
                 question.product};
    return made;
}

engine::BillRecord record_of(const MadeBill& made, const Asked& asked, const std::string& page) {
    const BillPage& bill = made.page;
    engine::BillRecord record;
    record.quote = bill.work.contract.steps.front().quote;
    record.bill = bill.number;
    record.date = bill.date;
    record.due = bill.answer.due;
    record.note = bill.note;
    record.terms_of = bill.work.quote.number;
    record.log = engine::sha256(made.log_text);
    record.posted = asked.posted ? engine::sha256(asked.posted_text) : std::string();
    record.product = bill.product;
    record.page = engine::sha256(page);
    record.cents = bill.answer.due_cents;
    for (const engine::BillLine& line : bill.answer.lines)
        record.items.push_back({line.title, line.name, line.kind, line.per, line.clause,
                                line.quantity, line.rate, line.cents, line.terms});
    return record;
}

std::string csv_of(const MadeBill& made, const Asked& asked) {
    const engine::QuoteRecord& quote = made.page.work.quote;
    return bill_csv_heading() +
           bill_csv_rows(record_of(made, asked, {}), quote.who, quote.title, quote.money.code);
}

void show(const BillArguments& arguments, const Asked& asked, const MadeBill& made, bool color,
          Reply& reply) {
    if (!made.doubts.diagnostics.all().empty())
        reply.said.push_back(made.doubts);
    if (arguments.json)
        reply.document = bill_json(made.page);
    else
        reply.page = arguments.csv ? csv_of(made, asked) : bill_text(made.page, color);
    reply.exact = arguments.csv;
    Reply told;
    if (arguments.page.empty() || save(arguments.page, bill_html(made.page), told))
        if (!arguments.text.empty())
            save(arguments.text, bill_text(made.page, false), told);
    for (const lang::Said& said : told.said) {
        lang::Said& kept = reply.said.emplace_back();
        kept.sources = said.sources;
        for (lang::Diagnostic fault : said.diagnostics.all()) {
            if (!arguments.draft)
                fault.notes.push_back("bill " + made.page.number +
                                      " was made anyway, and its page is in the book: "
                                      "`acrewright bill " +
                                      made.page.number + "`");
            kept.diagnostics.add(std::move(fault));
        }
    }
}

Reply issue(const BillArguments& arguments, const Asked& asked, Console& console) {
    const Book book(arguments.book);
    MadeBill made;
    const lang::Outcome<Added> added = book.append(
        [&](const BookState& state) -> lang::Outcome<Book::Coming> {
            lang::Outcome<MadeBill> now = make_bill(arguments, asked, book, state);
            if (!now)
                return std::move(now.said);
            made = std::move(*now);
            const std::string page = bill_text(made.page, false);
            Book::Coming coming;
            coming.record.counter = state.lives.newest()->counter;
            coming.record.body = record_of(made, asked, page);
            coming.also = {made.log_text, page};
            if (asked.posted)
                coming.also.push_back(asked.posted_text);
            return coming;
        },
        asked.key);
    Reply reply;
    if (!added) {
        lang::Said told;
        told.sources = added.said.sources;
        for (lang::Diagnostic fault : added.said.diagnostics.all()) {
            fault.title.insert(0, "no bill was made: ");
            told.diagnostics.add(std::move(fault));
        }
        reply.said.push_back(std::move(told));
        return reply;
    }
    console.done = "bill " + made.page.number + " is made";
    if (added->fleeting) {
        lang::Diagnostic fault = *added->fleeting;
        fault.title =
            "bill " + made.page.number + " was made but may be lost in a power cut: " + fault.title;
        reply.fail(std::move(fault));
        return reply;
    }
    reply.note = added->note;
    show(arguments, asked, made, console.color_out, reply);
    return reply;
}

Reply draft(const BillArguments& arguments, const Asked& asked, bool color) {
    const Book book(arguments.book);
    const lang::Outcome<BookState> state = book.state();
    if (!state)
        return state.said;
    const lang::Outcome<MadeBill> made = make_bill(arguments, asked, book, *state);
    if (!made)
        return made.said;
    Reply reply;
    show(arguments, asked, *made, color, reply);
    return reply;
}

} // namespace

Reply bill_command(Words words, Console& console) {
    BillArguments arguments;
    Arguments line(
        "bill",
        "Works out the bill of accepted work by the terms of its sealed quote: acres "
        "measured, fuel steps, standby by cause, change orders, less deposits; every "
        "line with the clause that it rests on. It gets the next number and is sealed "
        "into the book with the log. With the number of a bill it prints that page again.",
        "acrewright bill 2027-001 --book examples/quote-book --posted "
        "examples/posted-diesel.csv --date 2027-07-06 --draft");
    declare(arguments, line);
    if (auto reply = line.read(words))
        return std::move(*reply);
    arguments.note = engine::utf8_text(arguments.note);
    if (arguments.date.empty())
        arguments.date = today();
    if (is_bill_number(arguments.number))
        return reprint(arguments);
    Asked asked;
    if (auto failure = read_asked(arguments, asked))
        return std::move(*failure);
    return arguments.draft ? draft(arguments, asked, console.color_out)
                           : issue(arguments, asked, console);
}

} // namespace acre::cli
