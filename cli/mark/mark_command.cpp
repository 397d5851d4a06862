// mark: what happened to a quote, as a record of its own.
#include <algorithm>
#include <string>

#include <fmt/format.h>

#include "cli/command.h"
#include "cli/shared/arguments.h"
#include "cli/shared/clock.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_book/key_file.h"
#include "cli/shared/quote_book/work.h"
#include "cli/shared/text/wrap.h"
#include "engine/book/canonical.h"
#include "engine/book/quoted.h"
#include "engine/book/seal.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"

namespace acre::cli {
namespace {

struct MarkArguments {
    engine::WordRecord word;
    std::string folder = "quote-book", key, log;
    std::uint64_t corrects = 0;
};

std::optional<lang::Diagnostic> fault_of(const MarkArguments& arguments) {
    const engine::WordRecord& word = arguments.word;
    if (!lang::day_number(word.date))
        return lang::placeless(lang::Code::C003,
                               "`--date` takes a date, as in 2027-03-14; not `" + word.date + "`");
    const auto& states = engine::quote_states;
    const bool back = word.state == "offered" && arguments.corrects != 0;
    if (!back && std::find(states.begin() + 1, states.end(), word.state) == states.end())
        return lang::placeless(
            lang::Code::C003, "a quote cannot be marked `" + word.state + "`", {},
            {"the marks are accepted, \"turned down\", withdrawn, lapsed and finished",
             "with `--corrects RECORD` also offered, which takes a word back"});
    if (arguments.corrects > max_book_records)
        return lang::placeless(lang::Code::C003, "`--corrects` takes the number of a record");
    return std::nullopt;
}

// The options of a quote, its own first, as its page has them.
std::string options_of(const engine::Event& quote) {
    std::string names =
        fmt::format("`{}`", quote.own_option.empty() ? engine::own_offer : quote.own_option);
    for (const engine::EventOption& other : quote.options)
        names += fmt::format(", `{}`", other.option);
    return names;
}

// What the quote can become instead, for those who meant another mark.
void add_help(const BookState& state, const engine::WordRecord& word, lang::Diagnostic& fault) {
    const engine::Life* life = state.lives.find(word.quote);
    if (life == nullptr)
        return;
    if (word.corrects != 0) {
        if (!life->words.empty() && life->words.back().record != word.corrects)
            fault.helps.push_back(
                {fmt::format("the last word on it is record {}", life->words.back().record), {}});
        return;
    }
    if (!life->replaced_by.empty()) {
        fault.helps.push_back({"what happened to the offer is marked at quote " +
                                   life->replaced_by + ", which took its place",
                               {}});
        return;
    }
    const engine::Event& quote = life->quote;
    const std::string now = state.lives.standing(*life, engine::no_day).state;
    const auto next = engine::next_states(now);
    if (std::find(next.begin(), next.end(), word.state) != next.end()) {
        if (word.state == "accepted" && !quote.options.empty())
            fault.helps.push_back({"`--option` takes one of " + options_of(quote), {}});
        return;
    }
    fault.helps.push_back(
        {next.empty() ? fmt::format("a quote that is {} stays so; `--corrects RECORD` puts a "
                                    "wrong word right",
                                    now)
                      : fmt::format("from {} it can become {}", now, fmt::join(next, ", ")),
         {}});
}

// The word, and a warning where the offer was past its day.
lang::Outcome<Book::Coming> coming_word(const MarkArguments& arguments, const std::string& log,
                                        const BookState& state, Reply& reply) {
    const engine::WordRecord& word = arguments.word;
    const lang::Outcome<const engine::Life*> life = engine::find_quote(state.lives, word.quote);
    if (!life)
        return life.said;
    Book::Coming coming;
    coming.record.counter = state.lives.newest()->counter;
    engine::WordRecord body = word;
    if (!log.empty()) {
        body.log = engine::sha256(log);
        coming.also.push_back(log);
    }
    // No rule of the book, for books have such words: what is replaced is no offer any more.
    if (word.corrects == 0 && word.state != "offered" && !(*life)->replaced_by.empty() &&
        word.date >= (*life)->replaced_on)
        return lang::placeless(lang::Code::R005,
                               fmt::format("quote {} is replaced by {}; it cannot become {}",
                                           word.quote, (*life)->replaced_by, word.state));
    const engine::Event& quote = (*life)->quote;
    // Its log would be one that nobody asks for: work is finished as a whole.
    if (word.corrects == 0 && word.state == "finished" && !quote.changes.empty())
        return lang::placeless(
            lang::Code::R005,
            fmt::format("change order {} is part of the work of quote {}", word.quote,
                        quote.changes),
            {},
            {fmt::format("the quote is marked finished, with the log of all of its work:  "
                         "acrewright mark {} finished --log FILE",
                         quote.changes)});
    reply.said.clear();
    const std::vector<engine::Event>& words = (*life)->words;
    const bool taken_back =
        word.corrects != 0 && words.size() > 1 && words[words.size() - 2].state == word.state;
    if (word.state == "accepted" && word.date > quote.valid_until && !taken_back)
        reply.fail(lang::placeless(lang::Code::L836,
                                   fmt::format("quote {} was good until {}, and is accepted on {}",
                                               word.quote, lang::day_text(quote.valid_until),
                                               lang::day_text(word.date)),
                                   {"the firm holds to its offer all the same"}));
    coming.record.body = std::move(body);
    return coming;
}

// Why nothing could be made of the log, or what is doubtful in it: it would be found out when the
// job is billed, and be sealed by then. What else is wrong is said where the record is added.
std::optional<lang::Said> said_of_log(const Book& book, const MarkArguments& arguments,
                                      const std::string& log) {
    const lang::Outcome<BookState> state = book.state();
    if (!state)
        return std::nullopt;
    const lang::Outcome<Work> work = accepted_work(book, *state, arguments.word.quote);
    if (!work)
        return std::nullopt;
    const std::vector<engine::CountedLine> lines = engine::log_lines(work->quote);
    if (lines.empty()) // a model that counts nothing has its logs read by nobody
        return std::nullopt;
    lang::Outcome<engine::JobLog> read = engine::read_job_log(arguments.log, log, lines);
    return read ? doubts_of(book, *state, *work, *read) : std::move(read.said);
}

std::string marked_text(const engine::WordRecord& word) {
    return "quote " + lang::terminal_text(word.quote) + " is " + word.state + ", " +
           lang::day_text(word.date);
}

Reply mark(const MarkArguments& arguments, const std::string& key, const std::string& log,
           Console& console) {
    const Book book(arguments.folder);
    const engine::WordRecord& word = arguments.word;
    Reply reply;
    std::optional<lang::Said> of_log;
    if (!log.empty())
        of_log = said_of_log(book, arguments, log);
    if (of_log && of_log->diagnostics.has_errors())
        return std::move(*of_log);
    BookState seen;
    const About about{{std::string(base_number(word.quote))}, {}};
    // Judged inside append, on the book as it is when the record goes in: two people marking at
    // once cannot both be right.
    const lang::Outcome<Added> added = book.append(
        [&](const BookState& state) {
            seen = state;
            return coming_word(arguments, log, state, reply);
        },
        key, &about);
    if (!added) {
        reply = Reply();
        for (lang::Diagnostic fault : added.said.diagnostics.all()) {
            if (fault.code == lang::Code::R001 || fault.code == lang::Code::R003)
                fault.title.insert(0, "nothing was written: ");
            if (fault.code == lang::Code::R005)
                add_help(seen, word, fault);
            reply.fail(std::move(fault));
        }
        return reply;
    }
    console.done = marked_text(word);
    if (added->fleeting) {
        lang::Diagnostic fault = *added->fleeting;
        fault.title = "quote " + word.quote + " is marked " + word.state +
                      ", but the mark may be lost in a power cut: " + fault.title;
        reply.fail(std::move(fault));
        return reply;
    }
    reply.note = added->note;
    if (of_log && !of_log->diagnostics.all().empty())
        reply.said.push_back(std::move(*of_log));
    reply.page = "Quote" + console.done.substr(5) + "\nrecord " +
                 wrap(lang::terminal_text(arguments.folder + "/" + added->file), page_width, 7) +
                 "\n";
    return reply;
}

} // namespace

Reply mark_command(Words words, Console& console) {
    MarkArguments arguments;
    engine::WordRecord& word = arguments.word;
    Arguments line(
        "mark",
        "Records what happened to a quote: accepted, turned down, withdrawn, lapsed or finished. "
        "The quote itself never changes, and a wrong word is put right by another.",
        "acrewright mark 2027-001 accepted --book examples/quote-book --date 2027-03-20 --help");
    line.positional("NUMBER", "the quote's number", word.quote);
    line.positional("STATE", "accepted, \"turned down\", withdrawn, lapsed or finished",
                    word.state);
    line.option("--book", "FOLDER", "the quote book (quote-book)", arguments.folder);
    line.option("--date", "DATE", "when it happened (today)", word.date);
    line.option("--option", "OPTION", "which of the options was accepted", word.option);
    line.option("--note", "TEXT", "a remark", word.note);
    line.option("--log", "FILE", "the daily log of the job, sealed with this word", arguments.log);
    line.option("--corrects", "RECORD", "the record of the last word, which was wrong",
                arguments.corrects);
    line.option("--key", "FILE", "signs the record with this secret key", arguments.key);
    if (auto reply = line.read(words))
        return std::move(*reply);
    word.note = engine::utf8_text(word.note);
    if (word.date.empty())
        word.date = today();
    if (auto fault = fault_of(arguments))
        return std::move(*fault);
    word.corrects = static_cast<std::int64_t>(arguments.corrects);
    const lang::Outcome<std::string> key = read_key(arguments.key);
    if (!key)
        return key.said;
    lang::Outcome<std::string> log = std::string();
    if (!arguments.log.empty() && !(log = read_text(arguments.log, false, max_data_bytes)))
        return log.said;
    return mark(arguments, *key, *log, console);
}

} // namespace acre::cli
