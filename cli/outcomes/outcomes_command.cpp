// outcomes: where finished jobs fell in the risk that was sealed with their quotes, and which
// quotes were accepted.
#include <optional>
#include <string>

#include "cli/command.h"
#include "cli/outcomes/outcomes_page.h"
#include "cli/shared/arguments.h"
#include "engine/driver.h"
#include "lang/kept_trees.h"

namespace acre::cli {
namespace {

struct OutcomesArguments {
    std::string book = "quote-book";
    bool json = false;
};

// Finished jobs as they were sealed: their marks, and what their own texts make of them.
class Closed {
  public:
    std::optional<lang::Said> take(const Finished& finished) {
        const engine::QuoteRecord& quote = finished.work.quote;
        costs_.push_back(engine::place_cost(quote, finished.log, finished.changed));
        costs_.back().quote = finished.number;
        const std::optional<engine::MadeFrom> made = engine::made_from(quote);
        if (!made || !finished.changed.empty())
            return std::nullopt;
        engine::UsedTextsLoader own(made->texts, &trees_);
        const lang::Outcome<engine::Job> job = engine::make_job(made->request, own);
        if (!job) // an older notation may not be read any more; the sealed marks still stand
            return std::nullopt;
        engine::Assumptions each; // of this job alone
        lang::Outcome<engine::FinishedJob> one =
            engine::finished_job(quote.number, **job, quote.counted, finished.log, each, work_);
        if (!one)
            return std::move(one.said);
        for (engine::Reading& reading : one->readings.readings)
            reading.drawn = {}; // only the range is asked for
        priced_.push_back(std::move(*one));
        return std::nullopt;
    }
    engine::OutcomesAnswer answer() { return engine::outcomes(std::move(costs_), priced_); }

  private:
    std::vector<engine::CostOutcome> costs_;
    std::vector<engine::FinishedJob> priced_;
    lang::KeptTrees trees_;
    double work_ = 0;
};

// Quotes that were decided: by a word, or by their last day. A replaced offer and a change order
// are decided by no customer's yes or no to a price.
lang::Outcome<engine::WinsAnswer> ask_wins(const Book& book, const BookState& state,
                                           const std::string& day) {
    std::vector<engine::DecidedQuote> decided;
    for (const engine::Life* life : state.lives.all()) {
        const engine::Standing standing = state.lives.standing(*life, day);
        const bool won = standing.state == "accepted" || standing.state == "finished";
        const bool lost = standing.state == "turned down" || standing.state == "lapsed";
        if (!(won || lost) || !standing.replaced_by.empty() || !life->quote.changes.empty())
            continue;
        const lang::Outcome<engine::Record> record =
            book.record(static_cast<std::uint64_t>(life->quote.record));
        if (!record)
            return record.said;
        decided.push_back(engine::decided_quote(*record->quote(), won, standing.option));
    }
    return engine::wins(decided);
}

Reply show(const OutcomesArguments& arguments, bool color) {
    const Book book(arguments.book);
    const lang::Outcome<BookState> state = book.state();
    if (!state)
        return state.said;
    Closed closed;
    lang::Outcome<std::vector<LeftOut>> left_out = each_finished(
        book, *state, [&](const Finished& finished) { return closed.take(finished); });
    if (!left_out)
        return std::move(left_out.said);
    // The day of the newest record: what has lapsed since, nobody wrote down. Records of version 1
    // have no day of writing.
    std::string day(engine::no_day);
    if (const engine::Event* newest = state->lives.newest();
        newest != nullptr && newest->written.size() >= 10)
        day = newest->written.substr(0, 10);
    lang::Outcome<engine::WinsAnswer> wins = ask_wins(book, *state, day);
    if (!wins)
        return std::move(wins.said);
    const OutcomesPage page{closed.answer(), std::move(*wins), std::move(*left_out)};
    Reply reply;
    if (arguments.json)
        reply.document = outcomes_json(page);
    else
        reply.page = outcomes_text(page, color);
    return reply;
}

} // namespace

Reply outcomes_command(Words words, Console& console) {
    OutcomesArguments arguments;
    Arguments line(
        "outcomes",
        "Shows where the cost of each finished job fell in the risk that was sealed with "
        "its quote, which swings were too narrow, and which quotes win, by price, "
        "margin, distance and size; each with how well so few are known.",
        "acrewright outcomes --book examples/quote-book");
    line.option("--book", "FOLDER", "the quote book (quote-book)", arguments.book);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    return show(arguments, console.color_out);
}

} // namespace acre::cli
