#include "cli/shared/quote_book/work.h"

#include <map>

#include <fmt/format.h>

#include "cli/shared/files/read_text.h"
#include "cli/shared/job.h"
#include "engine/billing/terms.h"
#include "engine/book/quoted.h"

namespace acre::cli {
namespace {

constexpr std::size_t most_other_logs = 200; // the newest ones

// The log with which a quote was finished; empty: it has none.
lang::Outcome<std::string> sealed_log(const Book& book, const engine::Life& life) {
    const lang::Outcome<std::string> seal = log_seal(book, life);
    if (!seal || seal->empty())
        return seal;
    engine::FoundText found = book.text(*seal);
    if (!found.fault.empty())
        return book.unread("the log of quote " + life.quote.quote + " " + found.fault);
    return std::move(found.text);
}

// The log that the bill of this record was worked out from.
lang::Outcome<std::string> billed_log(const Book& book, std::int64_t index) {
    const lang::Outcome<engine::Record> record = book.record(static_cast<std::uint64_t>(index));
    if (!record)
        return record.said;
    engine::FoundText found = book.text(record->bill() == nullptr ? "" : record->bill()->log);
    if (!found.fault.empty())
        return book.unread(std::move(found.fault));
    return std::move(found.text);
}

// The newest bill of each quote, by its record.
std::map<std::string, std::int64_t> newest_bills(const BookState& state) {
    std::map<std::string, std::int64_t> bills;
    for (const engine::Event& event : state.lives.events())
        if (event.kind == "bill")
            bills[event.quote] = event.record;
    return bills;
}

// The readings of other logs in the book, those that quotes were finished with or else billed by;
// one that cannot be read is passed over here.
std::vector<engine::LogContext::Reading> other_readings(const Book& book, const BookState& state,
                                                        const engine::Life& own) {
    std::vector<engine::LogContext::Reading> all;
    std::size_t looked_at = 0;
    const std::map<std::string, std::int64_t> bills = newest_bills(state);
    const std::vector<const engine::Life*> lives = state.lives.all();
    for (auto life = lives.rbegin(); life != lives.rend() && looked_at < most_other_logs; ++life) {
        const bool finished = state.lives.standing(**life, engine::no_day).state == "finished";
        const auto bill = bills.find((*life)->quote.quote);
        if (*life == &own || (!finished && bill == bills.end()))
            continue;
        ++looked_at;
        lang::Outcome<std::string> text = sealed_log(book, **life);
        if (text && text->empty() && bill != bills.end())
            text = billed_log(book, bill->second);
        if (!text || text->empty())
            continue;
        const lang::Outcome<engine::Record> record =
            book.record(static_cast<std::uint64_t>((*life)->quote.record));
        if (!record)
            continue;
        const lang::Outcome<engine::JobLog> log =
            engine::read_job_log("log", *text, engine::log_lines(*record->quote()));
        if (!log)
            continue;
        for (engine::LogContext::Reading& one : engine::readings_of(*log, (*life)->quote.quote))
            all.push_back(std::move(one));
    }
    return all;
}

// `issued`: when the work was first quoted; a change order comes while it is being done.
engine::LogContext context_of(const engine::QuoteRecord& quote, const std::string& issued) {
    engine::LogContext context;
    context.issued = issued;
    context.start = quote.start;
    context.finish = quote.finish;
    context.counted = engine::log_lines(quote);
    const engine::Terms terms(quote);
    for (const engine::RecordCost& cost : quote.costs)
        if (cost.quantity_unit == "gal" || cost.quantity_unit == "L") {
            context.fuel_cost = context.fuel_price > 0 ? "" : cost.name;
            context.fuel_price = cost.rate;
        }
    if (!(context.fuel_price > 0))
        context.fuel_price = terms.inner_value("fuel_base").value_or(0);
    return context;
}

} // namespace

lang::Outcome<Work> accepted_work(const Book& book, const BookState& state,
                                  const std::string& number) {
    lang::Outcome<engine::Contract> contract = engine::contract_of(state.lives, number);
    if (!contract)
        return std::move(contract.said);
    const engine::ContractStep& last = contract->steps.back();
    lang::Outcome<engine::Record> record = book.record(static_cast<std::uint64_t>(last.record));
    if (!record)
        return std::move(record.said);
    lang::show_money(record->quote()->money);
    lang::Outcome<engine::QuoteRecord> quote = engine::as_option(*record->quote(), last.option);
    if (!quote)
        return std::move(quote.said);
    lang::show_money(quote->money);
    return Work{std::move(*contract), std::move(*record), std::move(*quote), {}};
}

lang::Outcome<Work> work_of(const Book& book, const BookState& state, const std::string& number) {
    lang::Outcome<Work> work = accepted_work(book, state, number);
    if (!work)
        return work;
    lang::Outcome<std::string> log = sealed_log(book, *work->contract.life);
    if (!log)
        return std::move(log.said);
    work->sealed_log = std::move(*log);
    return work;
}

lang::Outcome<std::string> log_seal(const Book& book, const engine::Life& life) {
    for (auto word = life.words.rbegin(); word != life.words.rend(); ++word) {
        if (word->state != "finished")
            continue;
        const lang::Outcome<engine::Record> record =
            book.record(static_cast<std::uint64_t>(word->record));
        if (!record)
            return record.said;
        return record->word() != nullptr ? record->word()->log : std::string();
    }
    return std::string();
}

lang::Said doubts_of(const Book& book, const BookState& state, const Work& work,
                     const engine::JobLog& log) {
    engine::LogContext context = context_of(work.quote, work.contract.life->quote.date);
    context.others = other_readings(book, state, *work.contract.life);
    lang::Said doubts;
    doubts.diagnostics = engine::check_log(log, context);
    doubts.sources = log.sources;
    return doubts;
}

lang::Outcome<WorkLog> log_of(const Book& book, const BookState& state, const Work& work,
                              const std::string& path) {
    const std::string& number = work.contract.life->quote.quote;
    if (path.empty() && work.sealed_log.empty())
        return lang::placeless(lang::Code::R010, "quote " + number + " has no log in the book", {},
                               {"name its log: a CSV file with a row for each day"});
    WorkLog read;
    read.text = work.sealed_log;
    if (!path.empty()) {
        lang::Outcome<std::string> text = read_named_file(path, max_data_bytes);
        if (!text)
            return std::move(text.said);
        read.text = std::move(*text);
    }
    if (!work.sealed_log.empty() && read.text != work.sealed_log)
        return lang::placeless(
            lang::Code::R010,
            fmt::format("quote {} was finished with another log than `{}`", number, path),
            {"the log that was sealed with it holds, so that half a log is never taken for all"},
            {"without LOG the sealed one is taken; `acrewright mark --corrects` puts a wrong word "
             "right"});
    lang::Outcome<engine::JobLog> log =
        engine::read_job_log(path.empty() ? "the sealed log of quote " + number : path, read.text,
                             engine::log_lines(work.quote));
    if (!log)
        return std::move(log.said);
    lang::Said doubts = doubts_of(book, state, work, *log);
    read.log = std::move(*log);
    return {std::move(read), std::move(doubts)};
}

} // namespace acre::cli
